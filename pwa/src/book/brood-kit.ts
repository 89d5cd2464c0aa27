/**
 * What a brood asks for in things: pans, feeders raised, grit, rings of the next size, a dust bath. Mirrors
 * server/broodline/reports/brood_kit.py over tests/vectors/agenda.json.
 */
import table from "@tables/brood_tasks.json";
import { localDate } from "../trade/calendar.ts";
import { gritMm } from "../trade/feeding.ts";
import { aged, type Course, lotsOf, onDay, pairOf, roleOf, speciesOf, weekly } from "./brood-course.ts";
import { caredOn } from "./cared.ts";
import type { Chore } from "./chores.ts";
import { noonMs, wholeDays } from "./hatch-day.ts";
import { marksOfLots } from "./marks-of-lots.ts";
import { DAY_MS, heldMs } from "./moments.ts";

const { ages } = table;
const [PAN, PAN_OVER] = pairOf(ages.pan);
const RAISE = pairOf(ages.raise);
const GRIT: readonly number[] = ages.grit.value;

/** A pan instead of paper, grit of the next size, rings of the next size. Nothing but rings under a hen. */
export function kitOfLot(course: Course): Chore[] {
  const rings = ringSize(course);
  if (roleOf(course) === "hen") return rings;
  const pan = course.age < PAN_OVER ? [aged(course, "pan", PAN)] : [];
  return [...pan, ...grit(course), ...rings];
}

/** Feeders and drinkers raised every week; the dust bath filled up, once the keeper chose to have one. */
export function kitOfPlace(courses: readonly Course[], youngest: Course): Chore[] {
  const task = weekly(youngest, "raise", RAISE);
  return [...(task === undefined ? [] : [task]), ...dustBath(courses, youngest)];
}

/** At each change of size, until the next; four weeks after the last no more. */
function grit(course: Course): Chore[] {
  const species = speciesOf(course.standing, course.lot);
  return GRIT.flatMap((day, i) => {
    const end = GRIT[i + 1] ?? day + ages.feed_open.value;
    const size = gritMm(species, day);
    return size && course.age < end
      ? [{ ...aged(course, "grit", day), figure: `${size.join(" to ")} mm` }]
      : [];
  });
}

/** Where chicks wear rings: at each age at which they are outgrown, until others were put on. */
function ringSize(course: Course): Chore[] {
  const { standing, age } = course;
  const { zone } = standing.keeper;
  const every = marksOfLots(standing.heads);
  const putOn = lotsOf(course)
    .flatMap((lot) => every.get(lot) ?? [])
    .filter(({ tag }) => tag?.kind === "ring")
    .map(({ on, atMs }) => on ?? localDate(heldMs(atMs), zone))
    .sort();
  const last = putOn.at(-1);
  if (last === undefined) return [];
  return ages.ring_size.value.flatMap((day) =>
    age < day + ages.ring_open.value && last < onDay(course, day - ages.ring_early.value)
      ? [aged(course, "ring_size", day)]
      : [],
  );
}

/** Two weeks after it was last filled, while these birds are here. Never where chicks are under heat or a hen. */
function dustBath(courses: readonly Course[], youngest: Course): Chore[] {
  const isHeated = courses.some(({ brood: { stages } }) => stages.has("hatched") || stages.has("brooding"));
  if (isHeated || roleOf(youngest) === "hen") return [];
  const born = courses.map((course) => onDay(course, 0)).sort()[0] ?? "";
  const lots = courses.flatMap(lotsOf);
  const last = caredOn(youngest.standing, "dust_bath", youngest.brood.place, lots)
    .filter((on) => on >= born)
    .sort()
    .at(-1);
  if (last === undefined) return [];
  const atMs = heldMs((noonMs(last) ?? 0) + ages.dust_bath.value * DAY_MS);
  const due = localDate(atMs, "UTC");
  return [{ ...aged(youngest, "dust_bath", wholeDays(youngest.bornMs, atMs)), atMs, since: due, due }];
}
