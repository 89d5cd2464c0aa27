/**
 * What the published tables say of the setter beside its temperature, the chosen figure of each: its wet bulb, for telling
 * whether two species want one air, and when its vents are opened.
 */
import table from "@tables/setpoints.json";

interface Row {
  readonly setter_wet?: readonly { readonly value: number | readonly [low: number, high: number] }[];
  readonly vents_quarter_open?: readonly Vents[];
  readonly vents_more_open?: readonly Vents[];
}

/** A day of incubation, and where it was read. */
export interface Vents {
  readonly value: number;
  readonly source: string;
  readonly status: string;
}

const ROWS = new Map(Object.entries(table.species as unknown as Readonly<Record<string, Row>>));

/** °F, low and high; undefined for a species the tables do not know. */
export function setterWetF(species: string): readonly [low: number, high: number] | undefined {
  const chosen = ROWS.get(species)?.setter_wet?.[0]?.value;
  if (chosen === undefined) return undefined;
  return typeof chosen === "number" ? [chosen, chosen] : chosen;
}

/** From which day the vents stand a quarter open and from which further; undefined where no table says. */
export function ventDays(species: string): readonly [quarter: Vents, more: Vents] | undefined {
  const row = ROWS.get(species);
  const quarter = row?.vents_quarter_open?.[0];
  const more = row?.vents_more_open?.[0];
  return quarter && more && [quarter, more];
}
