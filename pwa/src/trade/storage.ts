/**
 * Eggs before setting: what keeping them costs on average in commercial broiler flocks, to be shown as just that, and
 * how to keep and choose them. Mirrors server/broodline/trade/storage.py over tests/vectors/storage.json.
 */
import table from "@tables/storage.json";

/** A figure or a sentence with the key of its source. */
export interface Sourced<T> {
  readonly value: T;
  readonly source: string;
  readonly status: "seen" | "mirror" | "memory" | "derived" | "practice";
}

const FIRST_WEEK_DAYS = 7;

/** From how many days on the hatch is known to suffer. */
export const WORSE_AFTER_DAYS = table.worse_after.value;
/** Kept longer than this is advised against. */
export const MOST_DAYS = table.most_days.value;

/** The first of each list is the one advised; temperatures in °F as published. */
export const KEEPING = {
  temperatureF: table.keep_at as unknown as readonly Sourced<readonly [number, number]>[],
  humidityPct: table.keep_humidity as unknown as readonly Sourced<number | readonly [number, number]>[],
  growsAboveF: table.grows_above as unknown as readonly Sourced<number>[],
  sentences: table.keeping as unknown as readonly Sourced<string>[],
  worseAfter: table.worse_after as unknown as Sourced<number>,
  mostDays: table.most_days as unknown as Sourced<number>,
  cost: table.per_day_first_week as unknown as Sourced<number>,
};
export const CHOOSING: readonly Sourced<string>[] = table.choosing as unknown as Sourced<string>[];
export const REST_AFTER_POST_H = table.rest_after_post as unknown as Sourced<readonly [number, number]>;
export const UNDER_A_HEN = table.under_a_hen as unknown as Sourced<readonly [number, number]>;
export const UNDER_A_HEN_BETTER = table.under_a_hen_better as unknown as Sourced<number>;

/**
 * Points of hatch of set lost after so many days of storage (Yassin et al. 2008, Poult. Sci. 87:2408); null for less
 * than none or beyond 14 days, where nothing was read.
 */
export function storagePoints(days: number): number | null {
  if (!(days >= 0 && days <= table.read_up_to.value)) return null;
  const second = Math.max(0, days - FIRST_WEEK_DAYS);
  return (
    table.per_day_first_week.value * Math.min(days, FIRST_WEEK_DAYS) +
    table.per_day_second_week.value * second
  );
}
