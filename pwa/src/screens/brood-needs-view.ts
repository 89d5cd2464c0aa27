// What the young in a place need together: sums of ranges over their ages, today and on the day of the next change. Pure.
import { feedGADay, feedGBetween, type Growth, waterMlADay } from "../trade/feeding.ts";
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

type Aged = Pick<Group, "species" | "n"> & { readonly ageDays: number };
export const FOUR_WEEKS = 28;

/** The groups whose age is known. */
export const aged = (groups: readonly Group[]): readonly (Group & { readonly ageDays: number })[] =>
  groups.filter((group): group is Group & { ageDays: number } => group.ageDays !== null);

/** What they need when they are so many days older. */
export function needsIn(groups: readonly Aged[], days: number): Needs {
  const room = (part: (space: Space) => Ends | null) =>
    sumOf(groups, ({ species, ageDays }) => {
      const space = spaceAt(species, ageDays + days);
      return space === undefined ? null : part(space);
    });
  return {
    floorM2: room(({ floorM2 }) => floorM2),
    feederCm: room(({ feederCm }) => feederCm),
    drinkerCm: room(({ drinkerCm }) => drinkerCm),
    feedG: sumOf(groups, ({ species, ageDays }) => feedGADay(species, ageDays + days)),
    waterMl: sumOf(groups, ({ species, ageDays }) => waterMlADay(species, ageDays + days)),
  };
}

/** In how many days a source first gives another room to some of them; null where none does. */
export function nextChangeIn(groups: readonly Aged[]): number | null {
  const days = groups.flatMap(({ species, ageDays }) => {
    const next = spaceAt(species, ageDays)?.nextDay ?? null;
    return next === null ? [] : [next - ageDays];
  });
  return days.length === 0 ? null : Math.min(...days);
}

/** Feed of all of them over the next days, grams. */
export function feedFor(groups: readonly Aged[], days: number, growth: Growth = "slow"): Ends | null {
  return sumOf(groups, ({ species, ageDays }) => feedGBetween(species, ageDays, ageDays + days, growth));
}

function sumOf(groups: readonly Aged[], one: (group: Aged) => Ends | null): Ends | null {
  if (groups.length === 0) return null;
  return groups.reduce<Ends | null>(
    (sum, group) => {
      const ends = one(group);
      return sum === null || ends === null ? null : [sum[0] + ends[0] * group.n, sum[1] + ends[1] * group.n];
    },
    [0, 0],
  );
}
