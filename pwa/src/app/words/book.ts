// The book: what each entry says, in the keeper's words.

import type { OwnWords } from "../../book/own-words.ts";
import { capital } from "./capital.ts";
import { eggs, plural } from "./everywhere.ts";

export const book = {
  title: {
    empty: "Nothing written yet",
    clean: (n: number) => `${plural(n, "entry", "entries")}, nothing to settle`,
    problems: (n: number) => `${plural(n, "thing", "things")} to settle`,
  },
  emptyRemedy: "Whatever you set, count or name is written here in order, and can be taken back.",
  newer: (n: number) =>
    `${plural(n, "entry comes", "entries come")} from a newer app. They are kept; change over to the newer app to see them.`,
  problems: "To settle",
  settle: {
    missing: (n: number) => `${plural(n, "is", "are")} missing: write that down`,
    agree: "Found: the book was right",
  },
  filter: "Show",
  filters: {
    all: "All",
    eggs: "Eggs and chicks",
    names: "Names and rooms",
    others: "From others",
    back: "Taken back",
  },
  nothing: "Nothing here.",
  more: "Show earlier entries",
  help: "Handbook",
  copyHint:
    "One file with every entry; it can be read in again with “broodline import”. Photos are saved by themselves, under This phone.",
  takeBack: "Take back",
  bringBack: "Bring back",
  amend: "Change the count",
  amendTitle: "It should be",
  amendSave: "That is right",
  setting: ({ hatch }: OwnWords) => `The ${hatch.one}`,
  takenBack: "taken back",
  changed: "changed",
  onlyHere: "only on this phone",
  byOther: (name: string) => `from ${name}`,
  otherPhone: "another phone",
  imported: "read in from a file",
  sensor: "a thermometer",
  taps: (n: number) => plural(n, "tap", "taps"),
  today: "Today",
  yesterday: "Yesterday",
} as const;

/** What an entry did, for the start of its line. */
export const told = {
  keeper: (name: string) => `The place is called ${name}`,
  place: (name: string, role: string) => `${role}: ${name}`,
  family: (name: string, breed: string, { family }: OwnWords) => `${capital(family.one)} ${name}, ${breed}`,
  gathered: (name: string, n: number, kept: number) =>
    kept === n ? `${name}: ${eggs(n)} gathered` : `${name}: ${eggs(n)} gathered, ${kept} kept`,
  eggsOut: (name: string, n: number, how: string) => `${name}: ${eggs(n)} ${how}`.trim(),
  marked: (name: string, n: number | null, what: string) => `${name}: ${n ?? "all"} marked, ${what}`,
  marksSeen: (name: string, again: number) =>
    again > 0 ? `${name}: marks looked at, ${again} punched again` : `${name}: marks looked at`,
  set: (n: number, place: string) => `${eggs(n)} set in ${place}`,
  locked: (place: string) => `Lockdown done, ${place}`,
  candled: (place: string) => `Candling, ${place}`,
  lockdown: (place: string) => `Into the hatcher, ${place}`,
  hatch: (place: string) => `Hatch, ${place}`,
  opened: (place: string) => `Opening, ${place}`,
  pulled: (place: string) => `To the brooder, ${place}`,
  brooded: (place: string) => `To the brooder, ${place}`,
  lost: (place: string) => `Losses, ${place}`,
  left: (place: string) => `Sold or given, ${place}`,
  changed: (place: string) => `Put right, ${place}`,
  house: (place: string) => `Housed in ${place}`,
  counted: (n: number, name: string, ledger: number) =>
    n === ledger
      ? `${name}: counted ${n}, as the book says`
      : `${name}: counted ${n}, the book said ${ledger}`,
  line: (name: string, parts: string) => `${name} ${parts}`,
  others: {
    gauge_checked: "A gauge checked",
    bird: "A bird",
    came: "Birds came",
    left: "A bird left",
    same: "Two names, one bird",
    penned: "A pen put together",
    gathered: "Eggs gathered",
    eggs_out: "Eggs left the store",
    air: "An air reading",
    eggs_weighed: "A tray weighed",
    turned: "Eggs turned",
    vented: "Machine aired",
    watered: "Water topped up",
    outage: "A power cut",
    marked: "Chicks marked",
    brooder_check: "Brooder looked at",
    weighed: "Birds weighed",
    treated: "A treatment",
    order: "An authority's order",
    care: "A task done",
    scored: "A bird scored",
    note: "A note",
    photo: "A photo",
  } as Readonly<Record<string, string>>,
  newer: "From a newer app",
} as const;
