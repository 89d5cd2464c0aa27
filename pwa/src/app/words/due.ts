// What to do, when, and why.
import { plural } from "./everywhere.ts";

export const due = {
  title: {
    late: (what: string) => `${what} is late`,
    now: (what: string) => `${what} is due`,
    next: (what: string, when: string) => `${what} ${when}`,
    nothing: "Nothing to do today",
    empty: "No eggs in a machine",
  },
  emptyRemedy: "Set eggs, and what is due comes here by itself: candling, lockdown, hatch.",
  groups: { late: "Late", now: "Now", week: "Next" },
  tasks: {
    set: (place: string) => `Set eggs, ${place}`,
    candle: (place: string) => `Candle, ${place}`,
    lockdown: (place: string) => `Lockdown, ${place}`,
    hatch: (place: string) => `Look for chicks, ${place}`,
    pull: (place: string) => `Chicks to feed and water, ${place}`,
    open: (place: string) => `Open eggs, ${place}`,
    webs_again: (place: string) => `Look at toe webs, ${place}`,
    rings: (place: string) => `Look at rings, ${place}`,
    air: (place: string) => `No word from the thermometer, ${place}`,
  },
  short: {
    set: "Setting eggs",
    candle: "Candling",
    lockdown: "Lockdown",
    hatch: "A look at the hatch",
    pull: "Bringing chicks to feed and water",
    open: "Opening what did not hatch",
    webs_again: "A second look at toe webs",
    rings: "A look at rings",
    air: "A look at a silent thermometer",
  },
  setOf: (species: string, place: string) => `Set ${species} eggs${place ? `, ${place}` : ""}`,
  planned: "as planned",
  plans: "Change the plan",
  day: (day: number) => `day ${day}`,
  act: {
    set: "Set eggs",
    candle: "Tally",
    lockdown: "Lockdown",
    hatch: "Look",
    pull: "Chicks",
    open: "Open",
    webs_again: "Webs",
    rings: "Rings",
    air: "Air",
  },
  today: "today",
  tomorrow: "tomorrow",
  inDays: (n: number) => `in ${plural(n, "day", "days")}`,
  since: (when: string) => `since ${when}`,
  countdown: (n: number, place: string) =>
    n === 0 ? `Next lockdown: today, ${place}.` : `Next lockdown: ${plural(n, "day", "days")}, ${place}.`,
  source: (text: string) => `Source: ${text}`,
  away: "While I am away",
  set: "Set eggs",
  remindersFail: "Reminders do not reach this phone",
} as const;

/** "today", "tomorrow", "in 3 days"; days that have passed read as today. */
export function inDays(n: number): string {
  if (n <= 0) return due.today;
  return n === 1 ? due.tomorrow : due.inDays(n);
}
