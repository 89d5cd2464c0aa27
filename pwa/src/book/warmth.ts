/** What to do about the heat, by what the chicks look like and what a thermometer says. The chicks outrank it. Pure. */
import type { Bodies } from "./bodies.generated.ts";

export type Look = NonNullable<Bodies["brooder_check"]["look"]>;

/** offC: how far outside the band, °C, where only the thermometer speaks. */
export type Advice =
  | {
      readonly kind:
        | "well"
        | "leave"
        | "raise"
        | "raiseAnyway"
        | "lower"
        | "lowerAnyway"
        | "draught"
        | "inBand";
    }
  | { readonly kind: "below" | "above"; readonly offC: number };

export interface Band {
  readonly lowC: number;
  readonly highC: number;
}

/** Within this of the band a thermometer of the shed is not told from it: half a degree, our judgement. */
const SLACK_C = 0.5;

/** Null where neither chicks nor thermometer said anything, or only a thermometer and no band is known. */
export function adviceFor(look: Look | null, heatC: number | null, band: Band | null): Advice | null {
  const at = heatC === null || band === null ? null : sideOf(heatC, band);
  switch (look) {
    case "spread":
      return { kind: at === null || at.side === "in" ? "well" : "leave" };
    case "huddled":
      return { kind: at === null || at.side === "below" ? "raise" : "raiseAnyway" };
    case "away":
      return { kind: at === null || at.side === "above" ? "lower" : "lowerAnyway" };
    case "one_side":
      return { kind: "draught" };
    default:
      if (at === null) return null;
      return at.side === "in" ? { kind: "inBand" } : { kind: at.side, offC: at.offC };
  }
}

function sideOf(heatC: number, { lowC, highC }: Band): { side: "in" | "below" | "above"; offC: number } {
  if (heatC < lowC - SLACK_C) return { side: "below", offC: lowC - heatC };
  if (heatC > highC + SLACK_C) return { side: "above", offC: heatC - highC };
  return { side: "in", offC: 0 };
}
