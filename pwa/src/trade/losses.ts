/**
 * Losses of chicks held against what was published. Mirrors what needs no statistics of server/broodline/trade/losses.py
 * over tests/vectors/losses.json.
 */
import table from "@tables/losses.json";
import type { Published } from "./ranges.ts";

/** [At best, at most], or at most [of hens, of toms], by these names in the table's order. */
type Week = Readonly<Record<string, Published>>;
interface AgeRow {
  readonly from_day: number;
  readonly to_day?: number;
  readonly words: { readonly value: string; readonly source: string; readonly status: string };
}

const FIRST_WEEK: Readonly<Record<string, Week | undefined>> = table.first_week;
const AGES: readonly AgeRow[] = table.ages;

/** Causes that take several chicks at once: no chance, left out of the alarms. */
export const TOGETHER: readonly string[] = table.together.causes;
/** Chicks below which a percentage says little. */
export const FEW = table.few.value;
/** So many dead within 24 hours, and the rest ill: call. */
export const CALL_AT = table.alarm.call;
export const WORDS = table.words;

/** What commercial flocks lose in the first week, percent: the lower bound and the upper; none where none was read. */
export const firstWeekBounds = (species: string): readonly Published[] => Object.values(weekOf(species));

/** The same in words; empty where none was read. */
export function firstWeekWords(species: string): string {
  const week = weekOf(species);
  const words = week.hens ? WORDS.week_by_sex : week.most && WORDS.week;
  return (words ?? "").replace(/{(\w+)}/g, (_, name) => String(week[name]?.value));
}

/** "below", "between" or "above" the published bounds; null where there are none, or no chicks. */
export function firstWeek(species: string, died: number, n: number): "below" | "between" | "above" | null {
  const [low, most] = firstWeekBounds(species);
  if (low === undefined || most === undefined || n <= 0) return null;
  const share = (100 * died) / n;
  if (share > numberOf(most)) return "above";
  return share > numberOf(low) ? "between" : "below";
}

const weekOf = (species: string): Week => (Object.hasOwn(FIRST_WEEK, species) && FIRST_WEEK[species]) || {};

/** What to think of first when chicks of that age die. */
export function wordsForAge(ageDays: number): AgeRow["words"] | undefined {
  const age = Math.max(0, ageDays);
  return AGES.find(({ from_day, to_day }) => from_day <= age && age < (to_day ?? Number.POSITIVE_INFINITY))
    ?.words;
}

export function numberOf({ value }: Published): number {
  return typeof value === "number" ? value : (value[0] ?? 0);
}
