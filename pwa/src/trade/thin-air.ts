/**
 * Eggs brought up from lower ground: in thin air water leaves a shell faster, and by how much the humidity makes up.
 * Mirrors server/broodline/trade/thin_air.py over tests/vectors/thin_air.json. Vapour moves through pores in
 * proportion to 1 / air pressure; eggs that are laid at height have fewer pores and need nothing.
 */
import table from "@tables/weight_loss.json";
import { pressurePa, STANDARD_PRESSURE_PA } from "./air.ts";
import type { Sourced } from "./storage.ts";
import { humidityFor } from "./weight-loss.ts";

const { brought_up: rows } = table;

/** The sentences behind it, each with the key of where it was read and how surely. */
export const BROUGHT_UP_SAYS = [rows.rule, rows.home] as unknown as readonly Sourced<string>[];

/** morePct: of water that eggs laid near the sea lose up here. humidityPct: does here what fromPct does there. */
export interface BroughtUp {
  readonly morePct: number;
  readonly fromPct: number;
  readonly humidityPct: number;
}

/**
 * The correction at a height for eggs laid near the sea; null below the height from which it shows. humidityPct: the
 * last that was read, or null: then an example serves. Throws as pressurePa.
 */
export function broughtUp(altitudeM: number, humidityPct: number | null): BroughtUp | null {
  if (altitudeM < rows.least.value) return null;
  const times = STANDARD_PRESSURE_PA / pressurePa(altitudeM);
  const isRead = humidityPct !== null && humidityPct > 0 && humidityPct < 100;
  const fromPct = isRead ? humidityPct : rows.example.value;
  return { morePct: 100 * (times - 1), fromPct, humidityPct: humidityFor(fromPct, 1, times) };
}

/** height: as the keeper reads it, with its unit. */
export function broughtUpWords({ morePct, fromPct, humidityPct }: BroughtUp, height: string): string {
  const filled = { height, more: morePct.toFixed(0), from: fromPct.toFixed(0), to: humidityPct.toFixed(0) };
  return Object.entries(filled).reduce(
    (words, [name, figure]) => words.replaceAll(`{${name}}`, () => figure),
    rows.words,
  );
}
