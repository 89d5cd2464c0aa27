// Lengths, areas, feed and water as a keeper of the region reads them: two figures of a range, never finer than it is.
import { needs as words } from "../app/words/needs.ts";
import type { Region } from "../app/words/region.ts";
import type { Ends } from "../trade/ranges.ts";

/** How many of the unit one of ours is, and what it is called. */
interface Unit {
  readonly per: number;
  readonly name: string;
}

const UNITS = {
  area: { si: { per: 1, name: "m²" }, us: { per: 1 / 0.09290304, name: "ft²" } },
  length: { si: { per: 1, name: "cm" }, us: { per: 1 / 2.54, name: "in" } },
  feed: { si: { per: 1 / 1000, name: "kg" }, us: { per: 1 / 453.59237, name: "lb" } },
  water: { si: { per: 1 / 1000, name: "L" }, us: { per: 1 / 946.352946, name: "qt" } },
} as const satisfies Record<string, Record<"si" | "us", Unit>>;

/** "0.9 to 2.2 m²": the low end rounded down and the high end up, so that no source is left out. */
export function amount(ends: Ends | null, what: keyof typeof UNITS, region: Region): string {
  if (ends === null) return words.unknown;
  const { per, name } = UNITS[what][region === "us" ? "us" : "si"];
  const [low, high] = [ends[0] * per, ends[1] * per];
  const step = high < 1 ? 0.01 : high < 10 ? 0.1 : high < 100 ? 1 : 10;
  const told = (value: number) => String(Number((value * step).toFixed(2)));
  return words.between(told(Math.floor(low / step + 1e-9)), told(Math.ceil(high / step - 1e-9)), name);
}
