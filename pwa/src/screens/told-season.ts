// A season is named by the year it starts in.

/** The season that a day (YYYY-MM-DD) lies in; starts: its first month, January unless chosen. */
export const seasonOf = (day: string, starts: number | null | undefined): number =>
  Number(day.slice(0, 4)) - (Number(day.slice(5, 7)) < (starts ?? 1) ? 1 : 0);
