// What opens beside the counting: the end of a batch, a tray counted on paper, a count by hand, what came so far.

import type { OwnWords } from "../../book/own-words.ts";
import { eggs } from "./everywhere.ts";

export const end = {
  allDone: {
    candle: "All of this batch is judged.",
    lockdown: "All of this batch is in the hatcher.",
    hatch: "Every egg of this batch is out.",
    open: "All of this batch is opened.",
  },
  everyDone: {
    candle: "Every egg is judged.",
    lockdown: "Every egg is in the hatcher.",
    hatch: "Every egg is out.",
    open: "Every egg is opened.",
  },
  next: (name: string) => `Next: ${name}`,
  unsureAgain: (n: number) => `Look again at ${n} not sure`,
  finish: {
    candle: "Candling done",
    lockdown: "Lockdown done",
    hatch: "Look done",
    open: "Opening done",
  },
  lockFirst: "Lockdown done: turning stopped, humidity up",
  lockIn: (place: string) => `Lockdown done, now in ${place}`,
} as const;

export const typed = {
  title: (name: string) => `${name}: a tray counted on paper`,
  hint: (n: number) => `${eggs(n)} in hand. Type how many of each; leave the others at 0.`,
  left: (n: number) => (n < 0 ? `${-n} more than in hand` : `${n} stay in hand`),
  pips: (most: number, already: number) =>
    already > 0
      ? `Pipped: ${most} more at most. Of the eggs that stay, ${already} ${already === 1 ? "is" : "are"} down as pipped already.`
      : `Pipped: ${most} at most, as many as stay in the shell.`,
  refused:
    "What is typed here is not written: fewer eggs are in hand now than when you began, perhaps by another phone.",
  save: "Write these down",
} as const;

export const again = {
  title: "How many eggs are in the tray?",
  hint: {
    candle: (n: number) => `The book says ${n}. Count the tray, then tally it once more from the start.`,
    hatch: (n: number) =>
      `The book says ${n}. Count the eggs still in the shell, then those pipped today once more.`,
    lockdown: (n: number) => `The book says ${n} still to go in. Count them.`,
  },
  save: "That is the count",
  agree: (n: number) => `You counted ${n}, and so does the book.`,
  differ: (counted: number, book: number) =>
    `You counted ${counted}; the book says ${book}. Nothing is changed until you say so.`,
  /** What became of eggs that are not in the tray. */
  fewer: (n: number, became: string) => `${eggs(n)} ${became}: write that down`,
  /** Where eggs that are in the tray were thought to be. */
  more: (n: number, was: string) => `${eggs(n)} put back that ${n === 1 ? "was" : "were"} down as ${was}`,
  noneToPutBack: ({ family }: OwnWords) =>
    `The book has not so many out of this batch. Perhaps another ${family.one}'s eggs are among them, or more were set: that is changed in the book.`,
  book: "To the book",
  keep: "Leave it; I shall look",
} as const;

export const back = {
  title: (name: string) => `${name}: put one back`,
  ask: "Put an egg back",
  hint: "An egg put out by mistake, or found again, goes back among the others.",
  one: (was: string, n: number) => (n === 1 ? `One ${was}, back in` : `One of ${n} ${was}, back in`),
  none: "Nothing of this batch is out.",
} as const;

export const soFar = {
  ask: "Batch by batch",
  title: "So far, batch by batch",
  hand: (n: number) => `${n} in hand`,
  possible: (n: number, what: string, { family }: OwnWords) =>
    `and up to ${n} more ${what}: the ${family.one} was not known`,
  nothing: "Nothing judged yet",
  together: "All batches together",
} as const;

export const guide = {
  title: "Which is it?",
  hint: "Open at the blunt end, look into the air cell first. Then choose the picture that is most like it.",
  day: "Days it had lived, if you can tell",
  unsure: "No age: only the stage is written.",
  byDay: (day: number, stage: string) => `Day ${day}: ${stage}`,
  write: (stage: string, day: number) => `${stage}, about day ${day}`,
  clueAbout: "the age an embryo shows",
  clueFormula: (species: string) =>
    `What a chicken's egg shows by its age. For ${species} at the same share of its time.`,
  classFormula: "Early, midway and late: a chicken by weeks, other species by thirds of their time.",
} as const;

export const seldom = {
  aloud: "Say each count aloud",
  sayNow: "Say the count now",
  howTo: "How to",
} as const;

export const when = { title: "When did you see this?", save: "That is when" } as const;

/** Cautions while counting, short enough to leave the eggs in sight; the how-to pages say more. */
export const cautions = {
  opening:
    "Wear gloves, open outdoors or with the window open, and wash your hands after. A rotten egg can burst: wrap it first.",
  tooSoon: (hours: number, wait: number) => `Last chick ${hours} h ago: wait until it is ${wait} h.`,
  listen: "Candle and listen first: one that peeps goes back. Gloves on, by an open window.",
  lid: "An egg is pipped: keep the lid shut.",
  lidWhy: "While an egg is pipped, keep the lid shut: dry air glues the chick to its shell.",
  cold: (minutes: number) =>
    `Out for ${minutes} minutes: put the tray back, go on later. Every tap is kept. (Common practice.)`,
} as const;

/** Why no tally is begun now. */
export const cannotBegin = {
  title: "Do not count yet: it would not be kept",
  again: "Try again",
} as const;
