// When an act happened: now, or a day and a time by the clock of the holding, wherever the phone is.
import { localDate } from "../../trade/calendar.ts";

export type Moment =
  | { readonly kind: "now" }
  | { readonly kind: "then"; readonly day: string; readonly time: string };

export const NOW: Moment = { kind: "now" };

/** Before this no book of a flock was begun; a year typed with two digits lies far below it. */
export const FIRST_DAY = "1950-01-01";

const DAY_MS = 86_400_000;

/** "19:40" in the zone. */
export function timeText(at_ms: number, zone: string): string {
  const form = { hour: "2-digit", minute: "2-digit", hourCycle: "h23" } as const;
  try {
    return new Intl.DateTimeFormat("en-u-nu-latn", { ...form, timeZone: zone }).format(at_ms);
  } catch {
    return new Intl.DateTimeFormat("en-u-nu-latn", { ...form, timeZone: "UTC" }).format(at_ms);
  }
}

/** The moment as a Date, or null for now; undefined when day or time cannot be read or lie ahead of `now`. */
export function momentToDate(moment: Moment, now: Date, zone: string): Date | null | undefined {
  if (moment.kind === "now") return null;
  const at_ms = instantOf(moment.day, moment.time, zone);
  if (Number.isNaN(at_ms) || at_ms > now.getTime() || moment.day < FIRST_DAY) return undefined;
  return new Date(at_ms);
}

/**
 * The instant of a day and time by the zone's clock. Where the clock is put back and shows it twice, the first; where
 * it is put forward and never shows it, as much later as it was put forward (as RFC 5545 reads such a time).
 */
export function instantOf(day: string, time: string, zone: string): number {
  const wall_ms = Date.parse(`${day}T${time}Z`);
  const found = [wall_ms - DAY_MS, wall_ms + DAY_MS].map((near_ms) => wall_ms - aheadOfUtc(near_ms, zone));
  const shown = found.filter((at_ms) => at_ms + aheadOfUtc(at_ms, zone) === wall_ms);
  return shown.length > 0 ? Math.min(...shown) : (found[0] as number);
}

/** How far the zone's clock is ahead of UTC then, in whole minutes. */
function aheadOfUtc(at_ms: number, zone: string): number {
  if (Number.isNaN(at_ms)) return Number.NaN;
  const minute_ms = Math.floor(at_ms / 60_000) * 60_000;
  return Date.parse(`${localDate(minute_ms, zone)}T${timeText(minute_ms, zone)}Z`) - minute_ms;
}
