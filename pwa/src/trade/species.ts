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

/** A figure of the table, with the key of where it was read and how surely. */
interface Figure<T> {
  readonly value: T;
  readonly source: string;
  readonly status: "seen" | "mirror" | "memory" | "derived" | "practice";
}

interface SpeciesRow {
  readonly name: string;
  readonly period_days: Figure<Range>;
  readonly lockdown_day: Figure<number>;
  readonly candle_days: Figure<readonly number[]>;
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

/** The name of a species within a sentence: what is named after a people or a land keeps its capital. */
export function inASentence(name: string): string {
  return /^(African|Japanese|Muscovy)/.test(name) ? name : name.charAt(0).toLowerCase() + name.slice(1);
}

/** The figures of a species with where each was read. Throws RangeError for one that the tables do not know. */
export function figuresOf({ code }: Species) {
  const row = ROWS[code];
  if (row === undefined) throw new RangeError(`no species ${code}`);
  return { period: row.period_days, lockdown: row.lockdown_day, candle: row.candle_days };
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
