/** The kinds of poultry and game the tables know, by code. Mirrors server/broodline/trade/species.py. */
import table from "@tables/species.json";
import type { Cell } from "./sources.ts";

export type Range = readonly [low: number, high: number];

/**
 * How long a species takes. Days are counted from set day 0. periodDays: first and last day of the usual hatch, as
 * chosen. periodPublished: the widest range that the sources give. lockdownDay: turning stops. candleDays: when to
 * candle. cells: the chosen figures with source and status.
 */
export interface Species {
  readonly code: string;
  readonly name: string;
  readonly periodDays: Range;
  readonly periodPublished: Range;
  readonly lockdownDay: number;
  readonly lockdownPublished: Range;
  readonly candleDays: readonly number[];
  readonly cells: {
    readonly periodDays: Cell<Range>;
    readonly lockdownDay: Cell<number>;
    readonly candleDays: Cell<readonly number[]>;
  };
}

interface Topic<T> extends Cell<T> {
  readonly published: readonly Cell<Range>[];
}

interface SpeciesRow {
  readonly name: string;
  readonly period_days: Topic<Range>;
  readonly lockdown_day: Topic<number>;
  readonly candle_days: Cell<readonly number[]>;
}

// JSON knows lists, not pairs: the server's tests hold every row to this shape.
const ROWS = table.species as unknown as Readonly<Record<string, SpeciesRow>>;

export const SPECIES: ReadonlyMap<string, Species> = new Map(
  Object.entries(ROWS).map(([code, row]) => [code, speciesOf(code, row)]),
);

/** The species with this code, or undefined for one the tables do not know. */
export function speciesNamed(code: string): Species | undefined {
  return SPECIES.get(code);
}

function speciesOf(code: string, row: SpeciesRow): Species {
  const lockdown = row.lockdown_day.value;
  return {
    code,
    name: row.name,
    periodDays: row.period_days.value,
    periodPublished: widest(row.period_days.published, row.period_days.value),
    lockdownDay: lockdown,
    lockdownPublished: widest(row.lockdown_day.published, [lockdown, lockdown]),
    candleDays: row.candle_days.value,
    cells: { periodDays: row.period_days, lockdownDay: row.lockdown_day, candleDays: row.candle_days },
  };
}

function widest(published: readonly Cell<Range>[], chosen: Range): Range {
  const ranges = [chosen, ...published.map((cell) => cell.value)];
  return [Math.min(...ranges.map(([low]) => low)), Math.max(...ranges.map(([, high]) => high))];
}
