/**
 * What a brood asks for by the age of its chicks: heat, eating, feed, weighing, and the daily chores. Mirrors
 * server/broodline/reports/brood_tasks.py over tests/vectors/agenda.json. Tasks of age belong to a lot, chores to a place;
 * what several lots in one place ask for at once is one.
 */
import table from "@tables/brood_tasks.json";
import feeding from "@tables/feeding.json";
import { heatSteps, heatWords } from "../trade/brooding.ts";
import { localDate } from "../trade/calendar.ts";
import type { Bodies } from "./bodies.generated.ts";
import type { Chore } from "./chores.ts";
import { byCodePoint } from "./code-points.ts";
import { hatchedMs, wholeDays } from "./hatch-day.ts";
import { DAY_MS, heldMs } from "./moments.ts";
import type { Lot, Standing } from "./standing.ts";
import { type Brood, broods } from "./whereabouts.ts";

type Pair = readonly [first: number, last: number];

/** What the tasks of one brood are worked out from. */
interface Course {
  readonly standing: Standing;
  readonly brood: Brood;
  readonly lot: Lot;
  readonly bornMs: number;
  readonly nowMs: number;
  readonly age: number;
}

const { ages } = table;
const EAT = ages.eat.value as unknown as Pair;
const VITAMINS = ages.vitamins.value as unknown as Pair;
const LITTER = ages.litter.value as unknown as Pair;
const WEIGH: readonly number[] = ages.weigh.value;
const CHANGES = new Map<string, { readonly value: number | readonly number[] }>(
  Object.entries(feeding.change),
);

/** All that every brood still asks for, however far ahead. */
export function broodChores(standing: Standing, nowMs: number): Chore[] {
  const together = new Map<string, Chore>();
  for (const chore of chores(standing, nowMs)) {
    const key = JSON.stringify([chore.task, chore.place, chore.due, chore.heat ?? ""]);
    const other = together.get(key);
    together.set(key, other === undefined ? chore : both(other, chore));
  }
  return [...together.values()];
}

/** The species of a lot: its setting's, else its family's; "" where nobody knows. */
export function speciesOf(standing: Standing, lot: Lot): string {
  const setting = lot.setting === null ? undefined : standing.settings.get(lot.setting);
  return setting?.species ?? standing.families.get(lot.family ?? "")?.species ?? "";
}

function both(one: Chore, other: Chore): Chore {
  const isFirst = one.atMs < other.atMs || (one.atMs === other.atMs && one.day <= other.day);
  const [since = one.since] = [one.since, other.since].sort(byCodePoint);
  return { ...(isFirst ? one : other), lot: null, n: one.n + other.n, since };
}

function chores(standing: Standing, nowMs: number): Chore[] {
  const byPlace = new Map<string, Course[]>();
  const found = broods(standing).flatMap((brood) => {
    const lot = standing.lots.get(brood.lot);
    const bornMs = lot === undefined ? null : hatchedMs(standing, lot);
    const isBrooded = brood.stages.has("brooding") || brood.stages.has("growing");
    if (lot === undefined || brood.place === "" || !isBrooded || bornMs === null || bornMs > nowMs) return [];
    const course = { standing, brood, lot, bornMs, nowMs, age: wholeDays(bornMs, nowMs) };
    byPlace.set(brood.place, [...(byPlace.get(brood.place) ?? []), course]);
    return [heat, eating, feed, weighing].flatMap((ofAge) => ofAge(course));
  });
  const places = [...byPlace].sort(([a], [b]) => byCodePoint(a, b));
  return [...found, ...places.flatMap(([, courses]) => ofPlace(courses))];
}

/** The step that stands and those to come, until the one after it is due; none under a hen or in a machine. */
function heat(course: Course): Chore[] {
  const { standing, brood, lot, age } = course;
  const n = (brood.stages.get("hatched") ?? 0) + (brood.stages.get("brooding") ?? 0);
  const role = standing.places.get(brood.place)?.role;
  if (n === 0 || role === "hen" || role === "incubator" || role === "hatcher") return [];
  const steps = heatSteps(speciesOf(standing, lot));
  return steps.flatMap(([day, next], i) => {
    const over = steps[i + 1]?.[0] ?? day + ages.week.value;
    const isWritten = (check: Bodies["brooder_check"]) => check.heat_c !== undefined && check.heat_c !== null;
    if (age >= over || isChecked(course, onDay(course, day), isWritten)) return [];
    const told = next === undefined ? "" : heatWords(next, standing.keeper.temperature);
    return [{ ...aged(course, "heat", day), n, heat: told }];
  });
}

/** Every day of the first days anew; vitamins beside it where weak chicks were written down. */
function eating(course: Course): Chore[] {
  const isWeak = course.lot.moves.some((move) => move.weak);
  return [
    ...(isWithin(course.age, EAT) ? [daily(course, "eat")] : []),
    ...(isWithin(course.age, VITAMINS) && isWeak ? [daily(course, "vitamins")] : []),
  ];
}

function feed(course: Course): Chore[] {
  const change = CHANGES.get(speciesOf(course.standing, course.lot))?.value;
  if (change === undefined) return [];
  const [first, last] = typeof change === "number" ? [change, change] : [change[0] ?? 0, change.at(-1) ?? 0];
  return course.age <= last + ages.feed_open.value ? [aged(course, "feed", first)] : [];
}

/** At each age of selection, until the birds have another; a weighing of the lot makes it done. */
function weighing(course: Course): Chore[] {
  const { standing, lot, age } = course;
  const own = (standing.heads.weighed ?? []).filter(({ body }) => body.lot === lot.id);
  return WEIGH.flatMap((day) => {
    const early = onDay(course, day - ages.weigh_early.value);
    const end = onDay(course, day + ages.weigh_open.value);
    const isDone = own.some(({ body: { on } }) => on >= early && on < end);
    if (age >= day + ages.weigh_open.value || isDone) return [];
    return [{ ...aged(course, "weigh", day), since: early }];
  });
}

/** Water and drinkers daily, litter weekly, for all chicks of a place; under a hen water alone. */
function ofPlace(courses: readonly Course[]): Chore[] {
  const [youngest] = [...courses].sort((a, b) => b.bornMs - a.bornMs || byCodePoint(b.lot.id, a.lot.id));
  if (youngest === undefined) return [];
  const n = courses.reduce((sum, { brood }) => sum + brood.n, 0);
  const whole = { lot: null, n };
  const water = { ...daily(youngest, "water"), ...whole };
  const found = isChecked(youngest, water.due, (check) => check.water === true) ? [] : [water];
  if (youngest.standing.places.get(youngest.brood.place)?.role === "hen") return found;
  found.push({ ...daily(youngest, "drinkers"), ...whole });
  const day = Math.floor(youngest.age / ages.week.value) * ages.week.value;
  const since = onDay(youngest, day);
  if (isWithin(day, LITTER) && !isChecked(youngest, since, (check) => check.litter === true)) {
    found.push({ ...daily(youngest, "litter"), ...whole, since });
  }
  return found;
}

/** Due when the chicks are so many days old. */
function aged(course: Course, task: Chore["task"], day: number): Chore {
  const { brood, lot, bornMs } = course;
  const due = onDay(course, day);
  const atMs = heldMs(bornMs + day * DAY_MS);
  return {
    task,
    setting: null,
    lot: lot.id,
    place: brood.place,
    atMs,
    day,
    n: brood.n,
    since: due,
    due,
  };
}

/** Due today, at the hour they hatched. */
function daily(course: Course, task: Chore["task"]): Chore {
  const { age, bornMs, nowMs, standing } = course;
  const today = localDate(heldMs(nowMs), standing.keeper.zone);
  const chore = aged(course, task, age);
  const atMs = chore.due === today ? chore.atMs : heldMs(bornMs + (age + 1) * DAY_MS);
  return { ...chore, atMs, since: today, due: today };
}

function onDay({ bornMs, standing }: Course, day: number): string {
  return localDate(heldMs(bornMs + day * DAY_MS), standing.keeper.zone);
}

function isWithin(age: number, [first, last]: Pair): boolean {
  return first <= age && age <= last;
}

/** Whether a round at the brood's place, on that date or later, says so. */
function isChecked(
  { standing, brood }: Course,
  since: string,
  says: (check: Bodies["brooder_check"]) => boolean,
): boolean {
  return (standing.heads.brooder_check ?? []).some(({ body, atMs }) => {
    const isHere = (standing.rootOf.get(body.place) ?? body.place) === brood.place;
    return isHere && says(body) && localDate(heldMs(atMs), standing.keeper.zone) >= since;
  });
}
