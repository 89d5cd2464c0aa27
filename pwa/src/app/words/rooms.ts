// Rooms, and the page of one setting.

import type { OwnWords } from "../../book/own-words.ts";
import { eggs, plural } from "./everywhere.ts";

export const rooms = {
  title: {
    none: "No incubator yet",
    empty: "Every machine is empty",
    strayed: (name: string, what: string) => `${name}: ${what}`,
    running: (n: number, total: number) => `${eggs(total)} in ${plural(n, "machine", "machines")}`,
    chicks: (n: number) => `, ${n} out`,
  },
  emptyRemedy: "Name your first incubator; then you can set eggs in it.",
  emptyMachine: "Empty.",
  add: "Add a machine or room",
  places: "Change a machine or room",
  plan: "Plan a hatch",
  eggs: "Eggs in store",
  addTitle: "A machine or room",
  name: "Name",
  nameHint: "As you call it: Loft box, Kitchen cabinet",
  role: "What it is",
  roles: { incubator: "Incubator", hatcher: "Hatcher", brooder: "Brooder", hen: "Broody hen" },
  nameNeeded: "Give it a name first.",
  setHere: "Set eggs here",
  setAgain: "Set more eggs",
  eggsIn: (n: number) => eggs(n),
  speciesEggs: (n: number, species: string) => plural(n, `${species} egg`, `${species} eggs`),
  page: "Details",
  pageOf: (set: string, hatch: string) => `Details of the ${hatch} of ${set}`,
  since: (set: string) => `Set ${set}`,
  act: { candle: "Tally", lockdown: "Lockdown", hatch: "Hatch look", open: "Open eggs" },
  otherRole: "A place",
  noPlace: "Not in a machine",
  waiting: (n: number) => `${eggs(n)} wait to be opened.`,
} as const;

export const strip = {
  today: (day: number) => `day ${day}`,
  set: "set",
  lockdown: "lockdown",
  hatch: "hatch",
  candle: (day: number) => `${day}`,
  name: (day: number, candle: string, lockdown: number | null, from: number, to: number) =>
    `Day ${day} of incubation. Candling on day ${candle || "none"}; ${lockdown === null ? "no lockdown" : `lockdown on day ${lockdown}`}; hatch due from day ${from} to ${to}.`,
} as const;

export const setting = {
  set: (when: string, n: number) => `${eggs(n)} set ${when}`,
  headline: {
    candle: (day: number) => `Day ${day}: candle today`,
    wait: (what: string, when: string) => `${what} ${when}`,
    lockdown: "Lockdown is due",
    chicksDue: "Chicks are due",
    hatching: (out: number, left: number) => `${out} out, ${left} still in the shell`,
    over: (hatched: number, set: number) => `${hatched} of ${set} hatched; open what is left`,
    done: (hatched: number, set: number) => `${hatched} of ${set} hatched`,
    day: (day: number) => `Day ${day}`,
  },
  next: { candle: "Candling", lockdown: "Lockdown", hatch: "Chicks due" },
  tallies: { candle: "Candle", lockdown: "Lockdown", hatch: "Look at the hatch", open: "Open eggs" },
  lockAll: (text: string) => `All ${text} into the hatcher, turning stopped`,
  acts: "What to do",
  gauges: "Air and water",
  batches: "Batches",
  eggsWere: (n: number) => `${n} set`,
  calendar: "Calendar",
  candleOn: (day: number) => `Candle, day ${day}`,
  lockdownOn: (day: number) => `Lockdown, day ${day}`,
  hatchOn: "Chicks due",
  rates: "So far",
  ratesFinal: "How it went",
  fertility: "Fertile",
  hatchOfSet: "Hatched, of those set",
  hatchOfFertile: "Hatched, of the fertile",
  of: (k: number, n: number) => `${k} of ${n}`,
  between: (low: number, high: number) => `true rate ${low} to ${high} %`,
  notYet: "not known yet",
  basis: { candled: "by candling", opened: "by opening", mixed: "by candling and opening" },
  openRate: (n: number, { family }: OwnWords) => `up to ${n} more of unknown ${family.one}`,
  eachBatch: "Batch by batch",
  possible: (n: number, what: string, { family }: OwnWords) =>
    `and up to ${n} more ${what}: the ${family.one} was not known`,
  locked: (when: string) => `Lockdown done ${when}.`,
  story: "What was written",
  whole: "See it in the book",
} as const;
