/**
 * The calendar of an incubation: candling, lockdown, hatch window. Mirrors server/broodline/trade/calendar.py over
 * tests/vectors/calendar.json. Instants are milliseconds since 1970, UTC; local dates only at the edge.
 *
 * Day n begins n x 24 h after the eggs were set, so a change of the clocks moves the local time of a milestone,
 * never its distance from setting.
 */
import { DARK_SHELL_DAY, type Species } from "./species.ts";

export const DAY_MS = 86_400_000;

/** A day inside the years 1 and 9999, so that every zone can show it. */
const FIRST_MS = -62_135_510_400_000;
const LAST_MS = Date.UTC(9999, 11, 30);

/** day: days since setting, whole unless a keeper chose a part of a day. atMs: when it begins. */
export interface Milestone {
  readonly day: number;
  readonly atMs: number;
}

/** candle: in order. lockdown: turning stops. hatchFrom, hatchTo: first and last day of the usual hatch. */
export interface Calendar {
  readonly candle: readonly Milestone[];
  readonly lockdown: Milestone;
  readonly hatchFrom: Milestone;
  readonly hatchTo: Milestone;
}

/** Whole days since setting; set day is 0, before setting is negative. */
export function dayOf(setAtMs: number, nowMs: number): number {
  return Math.floor((nowMs - setAtMs) / DAY_MS);
}

/** So much later, held a day inside the years 1 and 9999. */
export function later(atMs: number, spanMs: number): number {
  return Math.max(FIRST_MS, Math.min(atMs + spanMs, LAST_MS));
}

/** The beginning of day `day`: day x 24 h after setting, held within the calendar's years. */
export function milestone(setAtMs: number, day: number): Milestone {
  // To the whole microsecond first, so that 18.1 days lose no millisecond to binary fractions.
  return { day, atMs: later(setAtMs, Math.floor(Math.round(day * DAY_MS * 1000) / 1000)) };
}

/**
 * The milestones of a setting. lockdownDay: the setting's own, which wins over the species table. Candling days at or
 * after lockdown fall away: the eggs then rest. darkShells: no egg lets light through before day 10 or so, so that the
 * first candling waits until then.
 */
export function incubationCalendar(
  species: Species,
  setAtMs: number,
  lockdownDay: number | null = null,
  darkShells = false,
): Calendar {
  const locked = lockdownDay ?? species.lockdownDay;
  const [low, high] = species.periodDays;
  const late = species.candleDays.map((day) => Math.max(day, DARK_SHELL_DAY));
  const days = darkShells ? [...new Set(late)].sort((a, b) => a - b) : species.candleDays;
  return {
    candle: days.filter((day) => day < locked).map((day) => milestone(setAtMs, day)),
    lockdown: milestone(setAtMs, locked),
    hatchFrom: milestone(setAtMs, low),
    hatchTo: milestone(setAtMs, high),
  };
}

/** The date at that instant in the zone, YYYY-MM-DD; in UTC where the zone is not known. */
export function localDate(atMs: number, zone: string): string {
  const parts = new Map(
    datesIn(zone)
      .formatToParts(atMs)
      .map(({ type, value }) => [type, value]),
  );
  return `${parts.get("year")?.padStart(4, "0")}-${parts.get("month")}-${parts.get("day")}`;
}

/** The instant in UTC to the millisecond, as entries write it: 2026-03-08T19:40:12.345Z. */
export function instantText(atMs: number): string {
  return new Date(atMs).toISOString();
}

/** Making a formatter is dear, and a book knows one zone or two. */
const DATES = new Map<string, Intl.DateTimeFormat>();

function datesIn(zone: string): Intl.DateTimeFormat {
  const known = DATES.get(zone);
  if (known !== undefined) return known;
  const dates = newDatesIn(zone);
  DATES.set(zone, dates);
  return dates;
}

function newDatesIn(zone: string): Intl.DateTimeFormat {
  const form = { year: "numeric", month: "2-digit", day: "2-digit" } as const;
  try {
    // An offset such as +01:00 is a zone to browsers, but not an IANA name.
    return new Intl.DateTimeFormat("en-u-ca-gregory-nu-latn", {
      ...form,
      timeZone: isName(zone) ? zone : "UTC",
    });
  } catch {
    return new Intl.DateTimeFormat("en-u-ca-gregory-nu-latn", { ...form, timeZone: "UTC" });
  }
}

function isName(zone: string): boolean {
  return /^[A-Za-z]/.test(zone);
}
