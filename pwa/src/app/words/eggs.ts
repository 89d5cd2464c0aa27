// Eggs before setting: the store, the round, what leaves, how to keep them.
import { eggs, plural } from "./everywhere.ts";

export const eggStore = {
  title: {
    none: "No eggs in store",
    some: (n: number, days: number) =>
      days === 0
        ? `${eggs(n)} in store, all of today`
        : `${eggs(n)} in store, the oldest ${plural(days, "day", "days")}`,
  },
  emptyRemedy: "Count each round here; the store then knows how many there are and how old.",
  needFamily: (family: string) => `Name a ${family} first; eggs are counted for each.`,
  gather: "Eggs gathered",
  gatherTitle: "What did you gather?",
  out: "Sold, eaten, given",
  set: "Set eggs",
  found: (family: string) => `Gathered of ${family}`,
  kept: (family: string) => `Kept of ${family}`,
  foundLabel: "Gathered",
  keptLabel: "Kept to set",
  day: "Day",
  days: { today: "Today", yesterday: "Yesterday", date: "A date" },
  ahead: "That is no day yet. Choose today or an earlier one.",
  nothing: "Count at least one egg.",
  store: "Where they lie",
  noStore: "Not said",
  hen: "From one hen",
  anyHen: "Any hen",
  save: (n: number) => `Save ${eggs(n)}`,
  saved: (n: number, kept: number) => `${eggs(n)} gathered, ${kept} kept.`,
  left: (n: number, how: string) => `${eggs(n)} ${how}.`,
  undo: "Undo",
  undone: "Undone. The entry stays in the book, crossed out.",
  inStore: (n: number) => `${n} in store`,
  ofDay: (n: number, day: string, age: string) => `${n} of ${day}, ${age}`,
  age: (days: number) => (days === 0 ? "today" : plural(days, "day", "days")),
  old: (n: number, days: number) => `${n} kept longer than ${plural(days, "day", "days")}.`,
  cost: (points: string) =>
    `At the oldest's age commercial flocks lost ${points} points of hatch, on average.`,
  beyond: (n: number) =>
    `${n} more left than were written as gathered. Add the missing round, or put the number right in the book.`,
  account: (kept: number, out: number, set: number) => `${kept} kept, ${out} left, ${set} set.`,
  noneOf: "None in store.",
  outTitle: "Eggs that leave the store",
  outFamily: "Of",
  count: "Eggs",
  how: "How",
  hows: { sold: "Sold", given: "Given", eaten: "Eaten", discarded: "Thrown away" },
  howsAfter: { sold: "sold", given: "given away", eaten: "eaten", discarded: "thrown away" },
  to: "To whom, if you like",
  settable: "What can be set on a day",
  onDay: "Set on",
  onThatDay: (n: number, fresh: number, days: number) =>
    `${n} of those in store now; ${fresh} of them will be no older than ${plural(days, "day", "days")}.`,
  pace: (more: number) => `At the pace of the last seven days about ${more} more by then.`,
  paceWhy: (name: string) => `eggs of ${name} by then`,
  paceSum: (of: number, days: number) =>
    `${of} kept in seven days / 7 × ${plural(days, "day", "days")}: our reckoning.`,
} as const;

export const keepingEggs = {
  title: "How to keep them",
  warmth: (range: string) => `At ${range}`,
  humidity: (range: string) => `${range} humidity`,
  growth: (at: string) => `Above ${at} they begin to grow`,
  days: (after: number, most: number) =>
    `Set within ${plural(after, "day", "days")} if you can; more than ${most} is too long.`,
  cold: "A refrigerator is too cold.",
  differ: "Published figures differ; all are here.",
  about: "keeping eggs",
  choosing: "Which eggs to set",
  aboutChoosing: "choosing eggs",
  readIn: "As printed, in our words.",
  formula: "The first figure is the one advised; the others were printed elsewhere.",
} as const;
