/**
 * What a brood asks for by the age of its chicks: heat, eating, feed, weighing, the daily chores, and what kit
 * it asks. Mirrors
 * server/broodline/reports/brood_tasks.py over tests/vectors/agenda.json. Tasks of age belong to a lot, chores to a place;
 * what several lots in one place ask for at once is one.
 */
import table from "@tables/brood_tasks.json";
import { type Heat, heatSteps, heatWords } from "../trade/brooding.ts";
import { feedChange } from "../trade/feeding.ts";
import type { Bodies } from "./bodies.generated.ts";
import {
  aged,
  type Course,
  courseOf,
  daily,
  isChecked,
  isWithin,
  lotsOf,
  onDay,
  pairOf,
  roleOf,
  speciesOf,
  weekly,
} from "./brood-course.ts";
import { kitOfLot, kitOfPlace } from "./brood-kit.ts";
import { isCared } from "./cared.ts";
import type { Chore } from "./chores.ts";
import { byCodePoint } from "./code-points.ts";
import { hatchedMs } from "./hatch-day.ts";
import type { Standing } from "./standing.ts";
import { broods } from "./whereabouts.ts";

const { ages } = table;
const EAT = pairOf(ages.eat);
const VITAMINS = pairOf(ages.vitamins);
const LITTER = pairOf(ages.litter);
const WEIGH: readonly number[] = ages.weigh.value;

/** All that every brood still asks for, however far ahead. */
export function broodChores(standing: Standing, nowMs: number): Chore[] {
  const together = new Map<string, Chore>();
  for (const chore of chores(standing, nowMs)) {
    if (isCared(standing, chore)) continue; // before others join it: it may be put off for one batch
    const key = JSON.stringify([chore.task, chore.place, chore.due, chore.figure ?? ""]);
    const other = together.get(key);
    together.set(key, other === undefined ? chore : both(other, chore));
  }
  return [...together.values()];
}

function both(one: Chore, other: Chore): Chore {
  const isFirst = one.atMs < other.atMs || (one.atMs === other.atMs && one.day <= other.day);
  const [since = one.since] = [one.since, other.since].sort(byCodePoint);
  const n = one.n === null || other.n === null ? null : one.n + other.n;
  const lots = [...(one.lots ?? []), ...(other.lots ?? [])];
  return { ...(isFirst ? one : other), lot: null, lots, n, since };
}

function chores(standing: Standing, nowMs: number): Chore[] {
  const byPlace = new Map<string, Course[]>();
  const found = broods(standing).flatMap((brood) => {
    const lot = standing.lots.get(brood.lot);
    const bornMs = lot === undefined ? null : hatchedMs(standing, lot, brood.among);
    const isBrooded = brood.stages.has("brooding") || brood.stages.has("growing");
    if (lot === undefined || brood.place === "" || !isBrooded || bornMs === null || bornMs > nowMs) return [];
    const course = courseOf(standing, brood, lot, bornMs, nowMs);
    byPlace.set(brood.place, [...(byPlace.get(brood.place) ?? []), course]);
    return [heat, eating, feed, weighing, kitOfLot].flatMap((ofAge) => ofAge(course));
  });
  const places = [...byPlace].sort(([a], [b]) => byCodePoint(a, b));
  return [...found, ...places.flatMap(([, courses]) => ofPlace(courses))];
}

/** The step that stands and those to come, until the one after it is due; none under a hen or in a machine. */
function heat(course: Course): Chore[] {
  const { standing, brood, lot, age } = course;
  const n = (brood.stages.get("hatched") ?? 0) + (brood.stages.get("brooding") ?? 0);
  const role = roleOf(course);
  if (n === 0 || role === "hen" || role === "incubator" || role === "hatcher") return [];
  const steps = heatSteps(speciesOf(standing, lot));
  return steps.flatMap(([day, next], i) => {
    const over = steps[i + 1]?.[0] ?? day + ages.week.value;
    const byChicks = next !== undefined && next.bandF === null;
    const isDone = ({ heat_c, look }: Bodies["brooder_check"]) =>
      typeof heat_c === "number" || (byChicks && Boolean(look));
    if (age >= over || isChecked(course, onDay(course, day), isDone)) return [];
    return [
      {
        ...aged(course, "heat", day),
        n: course.canBe ? n : null,
        ...toldOf(next, standing.keeper.temperature),
      },
    ];
  });
}

/** Which words a step is told in, and their figure. */
function toldOf(heat: Heat | undefined, scale: "C" | "F"): Pick<Chore, "says" | "figure"> {
  if (heat === undefined) return { says: "words_off" };
  if (heat.bandF !== null) return { figure: heatWords(heat.bandF, scale) };
  return { says: "words_chicks", figure: (heat.offDays ?? []).map((day) => `day ${day}`).join(" and ") };
}

/** Every day of the first days anew; vitamins beside it where weak chicks were written down. */
function eating(course: Course): Chore[] {
  const { brood, lot, standing } = course;
  const shared = standing.settings.get(lot.setting ?? "")?.among;
  const moves = (brood.among.length > 0 && shared) || lot.moves;
  const isWeak = moves.some((move) => move.weak);
  return [
    ...(isWithin(course.age, EAT) ? [daily(course, "eat")] : []),
    ...(isWithin(course.age, VITAMINS) && isWeak ? [daily(course, "vitamins")] : []),
  ];
}

function feed(course: Course): Chore[] {
  const change = feedChange(speciesOf(course.standing, course.lot));
  if (change === undefined) return [];
  const [first, last] = change.days;
  return course.age <= last + ages.feed_open.value ? [aged(course, "feed", first)] : [];
}

/** At each age of selection, until the birds have another; a weighing of the lot makes it done. */
function weighing(course: Course): Chore[] {
  const { standing, age } = course;
  const lots = lotsOf(course);
  const own = (standing.heads.weighed ?? []).filter(({ body }) => body.lot && lots.includes(body.lot));
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
  const sum = courses.reduce((all, { brood }) => all + brood.n, 0);
  const n = courses.every(({ canBe }) => canBe) ? sum : null;
  const whole = { lot: null, lots: courses.flatMap(lotsOf), n };
  const water = { ...daily(youngest, "water"), ...whole };
  const found = isChecked(youngest, water.due, (check) => check.water === true) ? [] : [water];
  if (roleOf(youngest) === "hen") return found;
  found.push({ ...daily(youngest, "drinkers"), ...whole });
  const litter = weekly(youngest, "litter", LITTER);
  if (litter !== undefined && !isChecked(youngest, litter.since, (check) => check.litter === true)) {
    found.push({ ...litter, ...whole });
  }
  return [...found, ...kitOfPlace(courses, youngest).map((chore) => ({ ...chore, ...whole }))];
}
