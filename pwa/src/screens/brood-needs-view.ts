// What the young in a place need together: sums of ranges over their ages, today and on the day of the next change. Pure.
import { wholeDays } from "../book/hatch-day.ts";
import { DAY_MS } from "../book/moments.ts";
import {
  feedFigures,
  feedGADay,
  feedGBetween,
  type Growth,
  waterFigures,
  waterMlADay,
  withSpread,
} from "../trade/feeding.ts";
import type { Ends } from "../trade/ranges.ts";
import { type Space, spaceAt } from "../trade/space.ts";
import type { Group } from "./brood-view.ts";

/** For all of them; null where it was not read for some. */
export interface Needs {
  readonly floorM2: Ends | null;
  readonly feederCm: Ends | null;
  readonly drinkerCm: Ends | null;
  readonly feedG: Ends | null;
  readonly waterMl: Ends | null;
}

type Born = Pick<Group, "species" | "n"> & { readonly bornMs: number };
export const FOUR_WEEKS = 28;

/** The groups whose age is known. */
export const dated = (groups: readonly Group[]): readonly (Group & { bornMs: number; ageDays: number })[] =>
  groups.filter(
    (group): group is Group & { bornMs: number; ageDays: number } =>
      group.bornMs !== null && group.ageDays !== null,
  );

const ageAt = ({ bornMs }: Born, atMs: number) => Math.max(0, wholeDays(bornMs, atMs));

/** What they need at a moment. */
export function needsAt(groups: readonly Born[], atMs: number): Needs {
  const room = (part: (space: Space) => Ends | null) =>
    sumOf(groups, (group) => {
      const space = spaceAt(group.species, ageAt(group, atMs));
      return space === undefined ? null : part(space);
    });
  return {
    floorM2: room(({ floorM2 }) => floorM2),
    feederCm: room(({ feederCm }) => feederCm),
    drinkerCm: room(({ drinkerCm }) => drinkerCm),
    feedG: sumOf(groups, (group) => {
      const [species, age] = [group.species, ageAt(group, atMs)];
      return withSpread(feedGADay(species, age), feedFigures(species, age, age + 1));
    }),
    waterMl: sumOf(groups, (group) => {
      const [species, age] = [group.species, ageAt(group, atMs)];
      return withSpread(waterMlADay(species, age), waterFigures(species, age));
    }),
  };
}

/** When the sources first ask for another room for some of them; null where they never do. */
export function nextChangeMs(groups: readonly Born[], nowMs: number): number | null {
  const moments = groups.flatMap((group) => {
    const next = spaceAt(group.species, ageAt(group, nowMs))?.nextDay ?? null;
    return next === null ? [] : [group.bornMs + next * DAY_MS];
  });
  return moments.length === 0 ? null : Math.min(...moments);
}

/** Feed of all of them from one moment to another, grams. */
export function feedFor(
  groups: readonly Born[],
  fromMs: number,
  toMs: number,
  growth: Growth = "slow",
): Ends | null {
  return sumOf(groups, (group) => {
    const [first, last] = [ageAt(group, fromMs), ageAt(group, toMs)];
    const eaten = feedGBetween(group.species, first, last, growth);
    return withSpread(eaten, feedFigures(group.species, first, last, growth));
  });
}

function sumOf(groups: readonly Born[], one: (group: Born) => Ends | null): Ends | null {
  if (groups.length === 0) return null;
  return groups.reduce<Ends | null>(
    (sum, group) => {
      const ends = one(group);
      return sum === null || ends === null ? null : [sum[0] + ends[0] * group.n, sum[1] + ends[1] * group.n];
    },
    [0, 0],
  );
}
