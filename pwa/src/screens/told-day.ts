// Calendar days as a keeper reads them; a day has no zone of its own.

const noon = (day: string) => Date.parse(`${day}T12:00:00Z`);

/** In the phone's language; what is no day of a calendar is told as it is written. */
function told(day: string, options: Intl.DateTimeFormatOptions): string {
  const at_ms = noon(day);
  if (Number.isNaN(at_ms)) return day;
  return new Intl.DateTimeFormat(undefined, { timeZone: "UTC", ...options }).format(at_ms);
}

/** "8 Mar". */
export const dayTold = (day: string): string => told(day, { day: "numeric", month: "short" });

/** "8 Mar", and "8 Mar 2025" where today lies in another year. */
export const dayInYear = (day: string, today: string): string =>
  day.slice(0, 4) === today.slice(0, 4) ? dayTold(day) : dateTold(day);

/** "8 Mar 2026". */
export const dateTold = (day: string): string =>
  told(day, { day: "numeric", month: "short", year: "numeric" });

/** "Sun 8 Mar". */
export const weekdayTold = (day: string): string =>
  told(day, { weekday: "short", day: "numeric", month: "short" });

/** The day so many days before. */
export const daysEarlier = (day: string, days: number): string =>
  new Date(noon(day) - days * 86_400_000).toISOString().slice(0, 10);

/** Whole days from one to the other, both YYYY-MM-DD. */
export const daysFrom = (from: string, to: string): number =>
  Math.round((noon(to) - noon(from)) / 86_400_000);

/** Whether it is a day that a calendar has. */
export const isDay = (day: string): boolean => /^\d{4}-\d{2}-\d{2}$/.test(day) && !Number.isNaN(noon(day));
