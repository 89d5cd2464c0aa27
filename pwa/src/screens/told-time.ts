// Instants as a keeper reads them: by the phone's language, in the holding's zone.

import { localDate } from "../trade/calendar.ts";

const DAY_MS = 86_400_000;

function format(zone: string, options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  try {
    return new Intl.DateTimeFormat(undefined, { timeZone: zone, ...options });
  } catch {
    return new Intl.DateTimeFormat(undefined, { timeZone: "UTC", ...options });
  }
}

/** "19:40". */
export const clock = (at_ms: number, zone: string) =>
  format(zone, { hour: "2-digit", minute: "2-digit" }).format(at_ms);

/** "8 March". */
export const dateWords = (at_ms: number, zone: string) =>
  format(zone, { day: "numeric", month: "long" }).format(at_ms);

/** "8 March", with the year where it is not this one's. */
export const dateInYear = (at_ms: number, now_ms: number, zone: string) =>
  dayKey(at_ms, zone).slice(0, 4) === dayKey(now_ms, zone).slice(0, 4)
    ? dateWords(at_ms, zone)
    : format(zone, { day: "numeric", month: "long", year: "numeric" }).format(at_ms);

/** "Sun 8 March". */
export const dayWords = (at_ms: number, zone: string) =>
  format(zone, { weekday: "short", day: "numeric", month: "short" }).format(at_ms);

/** "March 2026". */
export const monthWords = (at_ms: number, zone: string) =>
  format(zone, { month: "long", year: "numeric" }).format(at_ms);

/** "2026-03-08" in the zone: for comparing and writing days, whatever calendar and digits the phone tells dates in. */
export const dayKey = localDate;

/** Whole calendar days from `from` to `to` in the zone: 0 today, 1 tomorrow, -1 yesterday. */
export function daysBetween(from_ms: number, to_ms: number, zone: string): number {
  const noon = (at_ms: number) => Date.parse(`${dayKey(at_ms, zone)}T12:00:00Z`);
  return Math.round((noon(to_ms) - noon(from_ms)) / DAY_MS);
}

export interface AgoWords {
  readonly moment: string;
  readonly minutes: (n: number) => string;
  readonly hours: (n: number) => string;
  readonly days: (n: number) => string;
}

/** How long ago, in the largest unit that is full: "3 h". */
export function ago(from_ms: number, now_ms: number, words: AgoWords): string {
  const minutes = Math.floor((now_ms - from_ms) / 60_000);
  if (minutes < 1) return words.moment;
  if (minutes < 60) return words.minutes(minutes);
  const hours = Math.floor(minutes / 60);
  return hours < 48 ? words.hours(hours) : words.days(Math.floor(hours / 24));
}
