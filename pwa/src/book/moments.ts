/**
 * Times as they stand in entries: text in, whole milliseconds since 1970 (UTC) inside. Mirrors
 * server/broodline/book/moments.py. Date.parse reads much that is no time there, so it is not used.
 */

export const MINUTE_MS = 60_000;
export const HOUR_MS = 60 * MINUTE_MS;
export const DAY_MS = 24 * HOUR_MS;
export const SKEW_THAT_MATTERS_MS = 120_000;

const MOMENT =
  /^([0-9]{4}-[0-9]{2}-[0-9]{2})T([0-9]{2}):([0-9]{2})(?::([0-9]{2})(?:\.([0-9]{1,9}))?)?(?:Z|([+-])([0-9]{2}):([0-9]{2}))$/;
const DAY = /^([0-9]{4})-([0-9]{2})-([0-9]{2})$/;
const EARLIEST_MS = daysFromCivil(1, 1, 2) * DAY_MS;
const LATEST_MS = daysFromCivil(9999, 12, 30) * DAY_MS;
const MONTH_LENGTHS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/**
 * Milliseconds since 1970-01-01T00:00Z of an ISO 8601 time with Z or an offset, or null where there is no such
 * time; finer digits are cut off.
 */
export function momentMs(text: string): number | null {
  const found = MOMENT.exec(text);
  if (found === null) return null;
  const [
    ,
    date = "",
    hour,
    minute,
    second = "0",
    fraction = "",
    sign,
    offsetHours = "0",
    offsetMinutes = "0",
  ] = found;
  const day = dayNumber(date);
  const hours = Number(hour);
  const minutes = Number(minute);
  const seconds = Number(second);
  if (day === null || hours > 23 || minutes > 59 || seconds > 59) return null;
  if (Number(offsetHours) > 23 || Number(offsetMinutes) > 59) return null;
  const ahead = Number(offsetHours) * HOUR_MS + Number(offsetMinutes) * MINUTE_MS;
  const thousandths = Number(fraction.padEnd(3, "0").slice(0, 3));
  const ms = day * DAY_MS + hours * HOUR_MS + minutes * MINUTE_MS + seconds * 1000 + thousandths;
  return sign === "-" ? ms + ahead : ms - ahead;
}

/** Days since 1970-01-01 of a calendar day YYYY-MM-DD, or null where there is no such day (years 0001 to 9999). */
export function dayNumber(text: string): number | null {
  const found = DAY.exec(text);
  if (found === null) return null;
  const year = Number(found[1]);
  const month = Number(found[2]);
  const day = Number(found[3]);
  if (year < 1 || month < 1 || month > 12 || day < 1 || day > monthLength(year, month)) return null;
  return daysFromCivil(year, month, day);
}

/**
 * When an entry happened: the phone's clock, set right by its known skew where that is over two minutes. A skew that
 * leads out of the calendar (years 1 to 9999) is held at its edge.
 */
export function happenedMs(at: string, skewMs: number | null): number {
  const ms = momentMs(at) ?? 0;
  const correction = correctionMs(skewMs);
  return correction === 0 ? ms : heldMs(ms + correction);
}

/** What is added to times of a phone whose clock is so far behind the server's. */
export function correctionMs(skewMs: number | null): number {
  return skewMs === null || Math.abs(skewMs) <= SKEW_THAT_MATTERS_MS ? 0 : skewMs;
}

/** The time held a day inside the years 1 and 9999, so that every zone can show it. */
export function heldMs(ms: number): number {
  return Math.min(Math.max(ms, EARLIEST_MS), LATEST_MS);
}

function monthLength(year: number, month: number): number {
  const leap = month === 2 && year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  return leap ? 29 : (MONTH_LENGTHS[month - 1] ?? 0);
}

/** Days since 1970-01-01 in the Gregorian calendar reckoned back; years begin in March so that leap days come last. */
function daysFromCivil(year: number, month: number, day: number): number {
  const y = month > 2 ? year : year - 1;
  const yearDay = Math.floor((153 * ((month + 9) % 12) + 2) / 5) + day - 1;
  return 365 * y + Math.floor(y / 4) - Math.floor(y / 100) + Math.floor(y / 400) + yearDay - 719_468;
}
