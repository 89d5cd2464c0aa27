/** When the first pip and the first chick of this holding's other hatches of a species were seen, to set a hatch beside. */
import { hatchSoFar } from "./hatch-looks.ts";
import { DAY_MS } from "./moments.ts";
import type { Setting, Standing } from "./standing.ts";

/** pipDays, outDays: days since setting at which the first was seen, or null. families: those that this hatch has too. */
export interface FirstSeen {
  readonly setting: Setting;
  readonly pipDays: number | null;
  readonly outDays: number | null;
  readonly families: readonly string[];
}

/** Of one hatch itself. */
export function firstSeen(standing: Standing, setting: Setting): Omit<FirstSeen, "families"> {
  const { firstPipMs, firstOutMs } = hatchSoFar(setting, lotsOf(standing, setting));
  const days = (ms: number | null) => (ms === null ? null : (ms - setting.setAtMs) / DAY_MS);
  return { setting, pipDays: days(firstPipMs), outDays: days(firstOutMs) };
}

/** The others of its species in which something was seen, those of its own machine first, then the newest. */
export function earlierHatches(standing: Standing, of: Setting): FirstSeen[] {
  const own = new Set(lotsOf(standing, of).flatMap((lot) => lot.family ?? []));
  return [...standing.settings.values()]
    .filter((other) => other.id !== of.id && other.species === of.species && other.setAtMs < of.setAtMs)
    .map((other) => {
      const families = lotsOf(standing, other).flatMap((lot) => lot.family ?? []);
      return {
        ...firstSeen(standing, other),
        families: [...new Set(families)].filter((one) => own.has(one)),
      };
    })
    .filter(({ pipDays, outDays }) => pipDays !== null || outDays !== null)
    .sort(
      (a, b) => elsewhere(a.setting, of) - elsewhere(b.setting, of) || b.setting.setAtMs - a.setting.setAtMs,
    );
}

/** The lowest, middle and highest of some days; null of none. */
export function spreadOf(days: readonly (number | null)[]): readonly [number, number, number] | null {
  const sorted = days.filter((day) => day !== null).sort((a, b) => a - b);
  const [low, high] = [sorted[0], sorted.at(-1)];
  if (low === undefined || high === undefined) return null;
  const half = sorted.length / 2;
  const middle = ((sorted[Math.ceil(half) - 1] ?? low) + (sorted[Math.floor(half)] ?? high)) / 2;
  return [low, middle, high];
}

const elsewhere = (setting: Setting, of: Setting) => Number(setting.place !== of.place);

function lotsOf({ lots }: Standing, setting: Setting) {
  return setting.lots.flatMap((name) => lots.get(name) ?? []);
}
