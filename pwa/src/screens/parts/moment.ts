// When an act happened: now, or a day and a time of the phone's clock.

export type Moment =
  | { readonly kind: "now" }
  | { readonly kind: "then"; readonly day: string; readonly time: string };

export const NOW: Moment = { kind: "now" };

const two = (n: number) => String(n).padStart(2, "0");

/** "2026-03-08" in the phone's own zone. */
export const dayText = (date: Date) =>
  `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;

/** "19:40" in the phone's own zone. */
export const timeText = (date: Date) => `${two(date.getHours())}:${two(date.getMinutes())}`;

/** The day before, also across a change of the clock. */
export const dayBefore = (date: Date) =>
  new Date(date.getFullYear(), date.getMonth(), date.getDate() - 1, 12);

/** The moment as a Date, or null for now; undefined when day or time cannot be read or lie ahead of `now`. */
export function momentToDate(moment: Moment, now: Date): Date | null | undefined {
  if (moment.kind === "now") return null;
  const date = new Date(`${moment.day}T${moment.time}`);
  if (Number.isNaN(date.getTime()) || date.getTime() > now.getTime()) return undefined;
  return date;
}
