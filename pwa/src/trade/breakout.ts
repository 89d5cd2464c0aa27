/** At which stage an opened egg had died, by its age. Mirrors the classes of server/broodline/trade/breakout.py. */
import agenda from "@tables/agenda.json";
import table from "@tables/breakout.json";
import { speciesNamed } from "./species.ts";

export type DeathClass = "dead_early" | "dead_mid" | "dead_late";

/** What an opened embryo shows by its age: a chicken's, in days; other species go by their own share of the time. */
export interface Clue {
  readonly days: readonly [from: number, to: number];
  readonly seen: string;
  readonly source: string;
}

/** Hours after the last chick before what is left may be opened. */
export const OPEN_AFTER_H = agenda.hours.open_after_last_chick.value;

const CHICKEN_DAYS = table.classes.chicken.value as [number, number];
const PARTS = table.classes.other.value;
const CHICKEN = speciesNamed("chicken");

/** Days from setting to hatch; an unknown species takes as long as a chicken. */
export function periodDays(species: string): number {
  return (speciesNamed(species) ?? CHICKEN)?.periodDays[0] ?? 0;
}

/** The last day of early and of middle deaths: a chicken's by weeks, other species' by thirds. */
export function deathDays(species: string): readonly [early: number, middle: number] {
  const third = periodDays(species) / PARTS;
  return species === "chicken" ? CHICKEN_DAYS : [third, 2 * third];
}

/**
 * Early, middle or late death by the day on which an embryo died: a chicken's by weeks, other species' by thirds.
 * Whether it had pipped is seen, not reckoned from the day.
 */
export function deathClass(species: string, day: number): DeathClass {
  const [early, middle] = deathDays(species);
  if (day <= early) return "dead_early";
  return day <= middle ? "dead_mid" : "dead_late";
}

/** What to look for at that age; of other species than chicken at the same share of their time. */
export function clueAt(species: string, day: number): Clue | null {
  const as_chicken = Math.round((day * periodDays("chicken")) / periodDays(species));
  const row = table.clues.find(({ days: [from = 0, to = 0] }) => from <= as_chicken && as_chicken <= to);
  return row ? { days: row.days as [number, number], seen: row.seen.value, source: row.seen.source } : null;
}
