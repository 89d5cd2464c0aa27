/**
 * What birds eat and drink by age: the range of all sources that speak of it, never one number. Mirrors
 * server/broodline/trade/feeding.py over tests/vectors/feeding.json. Ages are whole days since hatching. Between the ages
 * a source names its figures are joined by straight lines; before and beyond them it says nothing.
 */
import table from "@tables/feeding.json";
import { type Ends, endsOf, type Figure, type Published } from "./ranges.ts";

interface Aged {
  readonly from_day: number;
  readonly to_day?: number;
}
interface ProteinRow extends Aged {
  readonly stage: string;
  readonly protein: Published;
}
interface FeedRow {
  readonly kind: string;
  readonly growth: string;
  readonly weeks: readonly number[];
  readonly weekly?: Published;
  readonly total?: Published;
}
interface WaterRow {
  readonly kind: string;
  readonly days?: readonly number[];
  readonly from_day?: number;
  readonly to_day?: number;
  readonly daily?: Published;
  readonly weekly?: Published;
  readonly per_day_of_age?: Published;
  readonly per_week_of_age?: Published;
  readonly weekly_100?: Published;
}

/** slow: layers and old breeds; fast: meat birds, which eat far more. */
export type Growth = "slow" | "fast";

/** The stage a feed is called, its protein in percent, and where that was read. */
export interface Protein {
  readonly stage: string;
  readonly percent: Ends;
  readonly figures: readonly Published[];
}

const WEEK = 7;
const FLOCK_OF_100 = 100;
/** International avoirdupois pound and US gallon, by definition. */
const GRAMS_IN_POUND = 453.59237;
const ML_IN_GALLON = 3785.411784;

const rowsOf = <Row>(part: unknown) => part as Readonly<Record<string, readonly Row[] | undefined>>;
const PROTEIN = rowsOf<ProteinRow>(table.protein);
const FEED = rowsOf<FeedRow>(table.feed);
const WATER = rowsOf<WaterRow>(table.water);
const CHANGE = table.change as Readonly<Record<string, Published | undefined>>;
const NOTES: Readonly<Record<string, { readonly value: string } | undefined>> = table.notes;

/** That the trough has the last word. */
export const LOOK = table.look;
/** By how many percent either way a range is wider where one source speaks alone. */
export const SPREAD: Published = table.spread;
/** The day before which no layer feed is given. */
export const LAYER_FEED: Published = table.layer_feed;
/** How many times as much water above 32 °C. */
export const HOT: Published = table.hot;

/** The protein that sources ask for at that age; undefined where none does. */
export function proteinAt(species: string, ageDays: number): Protein | undefined {
  const now = rowsAt(own(PROTEIN, species), ageDays);
  const [first] = now;
  if (first === undefined) return undefined;
  const figures = now.map(({ protein }) => protein);
  const ends = figures.flatMap(endsOf);
  return { stage: first.stage, percent: [Math.min(...ends), Math.max(...ends)], figures };
}

/**
 * Protein that turkeys of Medium White stock needed, percent, by weeks of age (Potter and Shelton 1980); null before the
 * hatch and for grown turkeys.
 */
export function turkeyProteinPct(weeks: number, sex: "male" | "female"): number | null {
  const line = table.protein_line;
  if (weeks < 0 || weeks > line.until.value) return null;
  return line.start.value - line[sex].value * weeks;
}

/** The days between which the starter gives way to the next feed, and what that is; undefined where it was not read. */
export function feedChange(species: string): (Published & { readonly days: Ends }) | undefined {
  const written = Object.hasOwn(CHANGE, species) ? CHANGE[species] : undefined;
  return written && { ...written, days: endsOf(written) };
}

/** The size of grit for that age, millimetres; null for all but chickens, of which alone it was read. */
export function gritMm(species: string, ageDays: number): Ends | null {
  const figure = gritFigure(species, ageDays);
  return figure ? endsOf(figure) : null;
}

/** Where that size was read; undefined before the hatch, and for all but chickens. */
export function gritFigure(species: string, ageDays: number): Published | undefined {
  if (species !== "chicken") return undefined;
  return rowsAt<Aged & { readonly size: Published }>(table.grit, ageDays)[0]?.size;
}

/** What to mind with this species' feed or water; undefined where nothing was read. */
export function noteFor(species: string): string | undefined {
  return Object.hasOwn(NOTES, species) ? NOTES[species]?.value : undefined;
}

/** Feed of one bird on that day, grams. */
export function feedGADay(species: string, ageDays: number, growth: Growth = "slow"): Ends | null {
  return rangeOf(feedRows(species, growth).map((row) => eatenBy(row, ageDays)));
}

/** Feed of one bird from one day to before another, grams; null where no source speaks of all those days. */
export function feedGBetween(
  species: string,
  firstDay: number,
  lastDay: number,
  growth: Growth = "slow",
): Ends | null {
  const days = Array.from({ length: Math.max(0, lastDay - firstDay) }, (_, i) => firstDay + i);
  return rangeOf(
    feedRows(species, growth).map((row) =>
      days.reduce<number | null>((sum, day) => {
        const eaten = eatenBy(row, day);
        return sum === null || eaten === null ? null : sum + eaten;
      }, 0),
    ),
  );
}

/** A figure and the kind of bird its source speaks of. */
export interface OfKind extends Published {
  readonly kind: string;
}

/** The figures of every source that speaks of all days from one to before another. */
export function feedFigures(
  species: string,
  firstDay: number,
  lastDay: number,
  growth: Growth = "slow",
): readonly OfKind[] {
  const days = Array.from({ length: Math.max(0, lastDay - firstDay) }, (_, i) => firstDay + i);
  return feedRows(species, growth)
    .filter((row) => days.every((day) => eatenBy(row, day) !== null))
    .flatMap(({ kind, weekly, total }) => {
      const figure = weekly ?? total;
      return figure === undefined ? [] : [{ ...figure, kind }];
    });
}

/** What to reckon with: a range wider by a stated share each way where all of it is of one source. */
export function withSpread(ends: Ends | null, figures: readonly Published[]): Ends | null {
  if (ends === null || !isOneSource(figures)) return ends;
  const [pct] = endsOf(SPREAD);
  return [(ends[0] * (100 - pct)) / 100, (ends[1] * (100 + pct)) / 100];
}

/** Two columns of one table are one source. */
export function isOneSource(figures: readonly Published[]): boolean {
  return new Set(figures.map(({ source }) => source)).size === 1;
}

/** That a range rests on figures from memory, all of it or a part; undefined where none of it does. */
export function memoryWords(figures: readonly Published[]): string | undefined {
  const remembered = figures.filter(({ status }) => status === "memory").length;
  if (remembered === 0) return undefined;
  return table.from_memory[remembered === figures.length ? "all" : "some"];
}

/** Water of one bird a day at about 21 °C, millilitres. */
export function waterMlADay(species: string, ageDays: number): Ends | null {
  return rangeOf(own(WATER, species).flatMap((row) => drunk(row, ageDays)));
}

/** The figure of every source that speaks of water at that age. */
export function waterFigures(species: string, ageDays: number): readonly OfKind[] {
  return own(WATER, species)
    .filter((row) => drunk(row, ageDays).length > 0)
    .flatMap(({ kind, ...row }) => {
      const figure = row.daily ?? row.weekly ?? row.per_day_of_age ?? row.per_week_of_age ?? row.weekly_100;
      return figure === undefined ? [] : [{ ...figure, kind }];
    });
}

/** What one source's bird eats that day, grams; null outside its ages. */
function eatenBy({ weeks, weekly, total }: FeedRow, ageDays: number): number | null {
  if (total !== undefined) {
    const pounds = [0, ...listOf(total)];
    const at = weeks.findIndex((end, i) => (weeks[i - 1] ?? 0) * WEEK <= ageDays && ageDays < end * WEEK);
    if (at < 0) return null;
    const span = ((weeks[at] ?? 0) - (weeks[at - 1] ?? 0)) * WEEK;
    return (((pounds[at + 1] ?? 0) - (pounds[at] ?? 0)) * GRAMS_IN_POUND) / span;
  }
  const figures = weekly === undefined ? [] : listOf(weekly).map((figure) => figure / WEEK);
  if (weeks[0] === 1) return ageDays < 0 ? null : (figures[Math.floor(ageDays / WEEK)] ?? null);
  return between(
    weeks.map((week) => week * WEEK),
    figures,
    ageDays,
  );
}

/** What one source's bird drinks that day, millilitres: nothing, one figure, or the ends of a range. */
function drunk(row: WaterRow, ageDays: number): number[] {
  if (row.days !== undefined) {
    const isDaily = row.daily !== undefined;
    const figures = listOf(row.daily ?? row.weekly).map((figure) => (isDaily ? figure : figure / WEEK));
    // A week's total stands for all of its first days.
    const days = isDaily ? row.days : [0, ...row.days];
    const found = between(days, isDaily ? figures : [figures[0] ?? 0, ...figures], ageDays);
    return found === null ? [] : [found];
  }
  const { from_day = 0, to_day = 0 } = row;
  if (ageDays < from_day || ageDays >= to_day + 1) return [];
  if (row.per_day_of_age) return [endsOf(row.per_day_of_age)[0] * ageDays];
  if (row.per_week_of_age) {
    const gallons = (endsOf(row.per_week_of_age)[0] * ageDays) / WEEK;
    return [(gallons * ML_IN_GALLON) / FLOCK_OF_100];
  }
  return listOf(row.weekly_100).map((end) => (end * ML_IN_GALLON) / FLOCK_OF_100 / WEEK);
}

/** On the straight line between two known days; null outside all of them. */
function between(days: readonly number[], figures: readonly number[], ageDays: number): number | null {
  const at = days.findIndex(
    (first, i) => first <= ageDays && ageDays <= (days[i + 1] ?? Number.NEGATIVE_INFINITY),
  );
  if (at < 0) return null;
  const [first = 0, last = 0] = [days[at], days[at + 1]];
  const [before = 0, after = 0] = [figures[at], figures[at + 1]];
  return before + ((after - before) * (ageDays - first)) / (last - first);
}

function feedRows(species: string, growth: Growth): readonly FeedRow[] {
  return own(FEED, species).filter((row) => row.growth === growth);
}

function own<Row>(
  rows: Readonly<Record<string, readonly Row[] | undefined>>,
  species: string,
): readonly Row[] {
  return (Object.hasOwn(rows, species) ? rows[species] : undefined) ?? [];
}

function rowsAt<Row extends Aged>(rows: readonly Row[], ageDays: number): Row[] {
  return rows.filter(
    ({ from_day, to_day }) => from_day <= ageDays && ageDays < (to_day ?? Number.POSITIVE_INFINITY),
  );
}

function rangeOf(figures: readonly (number | null)[]): Ends | null {
  const known = figures.filter((figure) => figure !== null);
  return known.length === 0 ? null : [Math.min(...known), Math.max(...known)];
}

function listOf(figure: Figure | undefined): readonly number[] {
  const value = figure?.value ?? [];
  return typeof value === "number" ? [value] : value;
}
