/** One brood on its way: what the tasks of its age are worked out from. Mirrors server/broodline/reports/brood_course.py. */
import table from "@tables/brood_tasks.json";
import { localDate } from "../trade/calendar.ts";
import type { Bodies } from "./bodies.generated.ts";
import type { Chore } from "./chores.ts";
import { wholeDays } from "./hatch-day.ts";
import { DAY_MS, heldMs } from "./moments.ts";
import type { Lot, Standing } from "./standing.ts";
import { canBe, tiedTo } from "./tied.ts";
import type { Brood } from "./whereabouts.ts";

type Pair = readonly [first: number, last: number];

/** What the tasks of one brood are worked out from. lot: of those of unknown family, one of which they may be. */
export interface Course {
  readonly standing: Standing;
  readonly brood: Brood;
  readonly lot: Lot;
  readonly bornMs: number;
  readonly nowMs: number;
  readonly age: number;
  /** Its counts can be, so that somebody can say how many. */
  readonly canBe: boolean;
}

const WEEK = table.ages.week.value;

export function courseOf(standing: Standing, brood: Brood, lot: Lot, bornMs: number, nowMs: number): Course {
  const tied = tiedTo(standing, lot);
  const own = brood.among.length > 0 ? tied.lots : [lot];
  const isTold = own.every((one) => canBe(one, tied));
  return { standing, brood, lot, bornMs, nowMs, age: wholeDays(bornMs, nowMs), canBe: isTold };
}

/** The species of a lot: its setting's, else its family's; "" where nobody knows. */
export function speciesOf(standing: Standing, lot: Lot): string {
  const setting = lot.setting === null ? undefined : standing.settings.get(lot.setting);
  return setting?.species ?? standing.families.get(lot.family ?? "")?.species ?? "";
}

/** The lots they may be of. */
export function lotsOf({ brood, lot }: Course): readonly string[] {
  return brood.among.length > 0 ? brood.among : [lot.id];
}

/** What the place is: "" where nobody named it. */
export function roleOf({ standing, brood }: Course): string {
  return standing.places.get(brood.place)?.role ?? "";
}

/** The two days of a figure of the table. */
export function pairOf({ value }: { readonly value: readonly number[] }): Pair {
  return [value[0] ?? 0, value[1] ?? 0];
}

/** Due when the chicks are so many days old. */
export function aged(course: Course, task: Chore["task"], day: number): Chore {
  const { brood, lot, bornMs } = course;
  const due = onDay(course, day);
  const atMs = heldMs(bornMs + day * DAY_MS);
  return {
    task,
    setting: null,
    lot: brood.among.length > 0 ? null : lot.id,
    place: brood.place,
    atMs,
    day,
    n: course.canBe ? brood.n : null,
    since: due,
    due,
    lots: lotsOf(course),
  };
}

/** Due today, at the hour they hatched. */
export function daily(course: Course, task: Chore["task"]): Chore {
  const { age, bornMs, nowMs, standing } = course;
  const today = localDate(heldMs(nowMs), standing.keeper.zone);
  const chore = aged(course, task, age);
  const atMs = chore.due === today ? chore.atMs : heldMs(bornMs + (age + 1) * DAY_MS);
  return { ...chore, atMs, since: today, due: today };
}

/** Once a week of age, between two days; undefined outside them. */
export function weekly(course: Course, task: Chore["task"], days: Pair): Chore | undefined {
  const day = Math.floor(course.age / WEEK) * WEEK;
  return isWithin(day, days) ? { ...daily(course, task), since: onDay(course, day) } : undefined;
}

export function onDay({ bornMs, standing }: Course, day: number): string {
  return localDate(heldMs(bornMs + day * DAY_MS), standing.keeper.zone);
}

export function isWithin(age: number, [first, last]: Pair): boolean {
  return first <= age && age <= last;
}

/** Whether a round at the brood's place, on that date or later, says so. */
export function isChecked(
  { standing, brood }: Course,
  since: string,
  says: (check: Bodies["brooder_check"]) => boolean,
): boolean {
  return (standing.heads.brooder_check ?? []).some(({ body, atMs }) => {
    const isHere = (standing.rootOf.get(body.place) ?? body.place) === brood.place;
    return isHere && says(body) && localDate(heldMs(atMs), standing.keeper.zone) >= since;
  });
}
