// Planning a setting from the day of hatching, or from the day of setting.
import { eggs, plural } from "./everywhere.ts";

export const plan = {
  title: {
    none: "When shall they hatch?",
    one: (species: string, when: string) => `Set ${species} eggs ${when}`,
    together: (when: string) => `All hatch ${when}, set one after the other`,
  },
  way: "You know the day of",
  ways: { hatch: "Hatching", set: "Setting" },
  hatchDay: "Chicks on",
  setDay: "Set on",
  place: "In",
  anyPlace: "Not decided",
  which: "Species",
  like: (what: string, when: string) => `With ${what}, ${when}`,
  likeTitle: "To hatch with eggs that are in already",
  setOn: (when: string, away: string) => `Set ${when}, ${away}`,
  away: (days: number) =>
    days === 0
      ? "today"
      : days > 0
        ? `in ${plural(days, "day", "days")}`
        : `${plural(-days, "day", "days")} ago`,
  late: (days: number, earliest: string) =>
    `${plural(days, "day", "days")} too late for that. Set today, they hatch ${earliest}.`,
  store: (n: number) => `${eggs(n)} in store now`,
  by: (n: number, more: number) =>
    `${n} in store now, about ${more} more by then at the pace of the last week`,
  old: (n: number, days: number) => `${n} of them older than ${plural(days, "day", "days")} by then`,
  noStore: "No eggs in store yet",
  now: "Set them now",
  keep: "Write the plan in the book",
  kept: "Written in the book. It comes on Due a week before, and when eggs are set it is asked whether they are these.",
  told: (n: string, place: string, set: string, hatch: string) =>
    `Set ${n}${place ? ` in ${place}` : ""} on ${set}${hatch ? `, chicks ${hatch}` : ""}.`,
  to: (from: string, to: string) => `${from} to ${to}`,
  keptTitle: "Planned already",
  keptNote: "A plan stands on Due from a week before its day, until its eggs are set or it is let go.",
  letGo: "Not any more",
  letGoOf: (what: string) => `Not any more: ${what}`,
  howMany: "How many eggs for the birds you wish for",
  noDay: "Choose a day.",
  speciesEggs: (species: string) => `${species} eggs`,
} as const;

export const planned = {
  isIt: "Are these the eggs you planned?",
  yes: "Yes, these",
  no: "No, others",
} as const;
