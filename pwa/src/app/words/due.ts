// What to do, when, and why.
import { eggs, plural } from "./common.ts";

export const due = {
  title: {
    late: (what: string) => `${what} is late`,
    now: (what: string) => `${what} is due`,
    next: (what: string, when: string) => `${what} ${when}`,
    nothing: "Nothing to do today",
    empty: "No eggs in a machine",
  },
  emptyRemedy: "Set eggs, and what is due comes here by itself: candling, lockdown, hatch.",
  groups: { late: "Late", now: "Now", week: "This week", later: "Later" },
  tasks: {
    candle: (place: string) => `Candle, ${place}`,
    lockdown: (place: string) => `Lockdown, ${place}`,
    hatch: (place: string) => `Look for chicks, ${place}`,
    open: (place: string) => `Open eggs, ${place}`,
  },
  short: { candle: "Candling", lockdown: "Lockdown", hatch: "The hatch", open: "Opening" },
  why: {
    candle: (day: number, n: number) => `day ${day}, ${eggs(n)} still in hand`,
    lockdown: (day: number) => `day ${day}: stop turning, raise humidity`,
    hatch: (day: number, n: number) => `day ${day}, ${eggs(n)} in the hatcher`,
    open: (n: number) => `${eggs(n)} did not hatch or came out clear`,
  },
  act: { candle: "Tally", lockdown: "Lockdown", hatch: "Look", open: "Open" },
  today: "today",
  tomorrow: "tomorrow",
  inDays: (n: number) => `in ${plural(n, "day", "days")}`,
  since: (when: string) => `since ${when}`,
  countdown: (n: number, place: string) =>
    n === 0 ? `Next lockdown: today, ${place}.` : `Next lockdown: ${plural(n, "day", "days")}, ${place}.`,
  source: (text: string) => `Source: ${text}`,
  judgement: "our judgement",
  set: "Set eggs",
} as const;
