/** The kinds of poultry and game the tables know, by code. Mirrors server/broodline/trade/species.py. */
import table from "@tables/species.json";

export type Range = readonly [low: number, high: number];

/**
 * How long a species takes, as chosen among the published figures. Days are counted from set day 0. periodDays: first
 * and last day of the usual hatch. lockdownDay: turning stops. candleDays: when to candle.
 */
export interface Species {
  readonly code: string;
  readonly name: string;
  readonly periodDays: Range;
  readonly lockdownDay: number;
  readonly candleDays: readonly number[];
}

interface SpeciesRow {
  readonly name: string;
  readonly period_days: { readonly value: Range };
  readonly lockdown_day: { readonly value: number };
  readonly candle_days: { readonly value: readonly number[] };
}

// JSON knows lists, not pairs: the server's tests hold every row to this shape.
const ROWS = table.species as unknown as Readonly<Record<string, SpeciesRow>>;

export const SPECIES: ReadonlyMap<string, Species> = new Map(
  Object.entries(ROWS).map(([code, row]) => [code, speciesOf(code, row)]),
);

/** Day of incubation before which little is seen through a dark shell. */
export const DARK_SHELL_DAY = table.dark_shell_first_candle_day.value;

/** The species with this code, or undefined for one the tables do not know. */
export function speciesNamed(code: string): Species | undefined {
  return SPECIES.get(code);
}

function speciesOf(code: string, row: SpeciesRow): Species {
  return {
    code,
    name: row.name,
    periodDays: row.period_days.value,
    lockdownDay: row.lockdown_day.value,
    candleDays: row.candle_days.value,
  };
}
