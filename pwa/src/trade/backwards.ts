/**
 * From a wished day of hatching back to the day of setting, and forwards. Whole calendar days, as a keeper plans:
 * the hour of setting is the hour of the hatch's first day.
 */
import type { Species } from "./species.ts";

const DAY_MS = 86_400_000;

/** The day to set on so that the first day of the usual hatch is `wished`, both YYYY-MM-DD; null for no such day. */
export function setDayFor(species: Species, wished: string): string | null {
  return shifted(wished, -species.periodDays[0]);
}

/** First and last day of the usual hatch of eggs set on `day`; null for no such day. */
export function hatchDaysFor(species: Species, day: string): readonly [from: string, to: string] | null {
  const from = shifted(day, species.periodDays[0]);
  const to = shifted(day, species.periodDays[1]);
  return from === null || to === null ? null : [from, to];
}

/** So many days later; null where `day` is none or the years 1 to 9999 end. */
export function shifted(day: string, days: number): string | null {
  const at = Date.parse(`${day}T00:00:00Z`);
  if (!/^\d{4}-\d{2}-\d{2}$/.test(day) || Number.isNaN(at)) return null;
  const date = new Date(at + days * DAY_MS);
  const text = date.toISOString().slice(0, 10);
  return /^\d{4}-/.test(text) && date.getUTCFullYear() > 0 ? text : null;
}
