// The counting screen: one egg, one tap.
import { eggs } from "./everywhere.ts";

export const tally = {
  title: {
    candle: (day: number) => `Candling, day ${day}`,
    lockdown: (day: number) => `Lockdown, day ${day}`,
    hatch: (day: number) => `Hatch, day ${day}`,
    open: "Opening",
  },
  batches: "Batches",
  sign: (sign: string) => `Sign ${sign}`,
  noSign: "No sign",
  under: {
    candle: (n: number) => `still in hand, of ${n}`,
    lockdown: (n: number) => `still to go in, of ${n}`,
    hatch: (n: number) => `still in the shell, of ${n}`,
    open: (n: number) => `still to open, of ${n}`,
  },
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
  soFar: (n: number) => `${n} so far`,
  lookAgain: (n: number) => `${n}, look again`,
  buttons: {
    hatched: "Hatched",
    pipped: "Pipped",
    weak: "Hatched, weak",
    helped: "Helped out",
    lost: "Hatched, died",
    none: "Nothing new",
    noneNote: "closes this look",
    noneSaved: "Looked, nothing new",
  },
  rest: {
    candle: "The rest are live",
    lockdown: "The rest go in",
    hatch: "The rest did not hatch",
    open: "The rest are infertile",
  },
  typed: "Type a count",
  typedTitle: (name: string) => `${name}: a tray counted on paper`,
  typedHint: (n: number) => `${eggs(n)} in hand. Type how many of each; leave the others at 0.`,
  typedLeft: (n: number) => (n < 0 ? `${-n} more than in hand` : `${n} stay in hand`),
  typedSave: "Write these down",
  other: "Something else",
  again: "Count again",
  againTitle: "How many eggs are in the tray?",
  againHint: (n: number) => `The book says ${n}. Count the tray, then tally it once more from the start.`,
  againSave: "That is the count",
  agree: (n: number) => `You counted ${n}, and so does the book. Tally once more from the start.`,
  differ: (counted: number, book: number) =>
    `You counted ${counted}; the book says ${book}. Nothing is changed until you say so.`,
  fewer: (n: number) => `${eggs(n)} missing: write that down`,
  fewerKeep: "Leave it; I shall look",
  unsureAgain: (n: number) => `Look again at ${n} not sure`,
  lastTitle: "Undo",
  lastOf: (whose: string, act: string) => `${whose}, ${act}`,
  out: (minutes: number) => `tray out ${minutes} min`,
  pile: "Open from",
  finish: {
    candle: "Candling done",
    lockdown: "Lockdown done",
    hatch: "Look done",
    open: "Opening done",
  },
  lockFirst: "Lockdown done: turning stopped, humidity up",
  awake: "Keep the screen on while you count?",
  awakeYes: "Keep it on",
  awakeNo: "No",
  say: "Say the count aloud",
  saying: (name: string, n: number, what: string) => `${name}, ${n} ${what}`,
  keys: "Keys 1 to 6 answer, Backspace takes back.",
  amongNote:
    "Use this when the sign cannot be read. It counts for the setting; each family shows it as possible.",
  stripName: (name: string, parts: string) => `${name}: ${parts}`,
  stripOut: (parts: string) => `out: ${parts}`,
  gone: "This setting is not on this phone yet. It comes with the next connection.",
  inHand: "in hand",
  among: "Not known",
  tabDone: "done",
  part: (n: number, what: string) => `${n} ${what}`,
} as const;

/** What an entry counted: "8 live, 1 clear". */
export const parts = {
  part: (n: number, what: string) => `${n} ${what}`,
  lookNone: "looked, nothing new",
  helped: "helped out",
  weak: "weak",
  back: "put back",
} as const;

/** Why no tally is begun now. */
export const cannotBegin = {
  title: "Do not count yet: it would not be kept",
  again: "Try again",
} as const;

/** Cautions while counting; all others stand in safety.ts. */
export const cautions = {
  opening:
    "Wear gloves, open outdoors or with the window open, and wash your hands after. A rotten egg can burst: wrap it first.",
  lid: "While an egg is pipped, keep the lid shut: dry air glues the chick to its shell.",
} as const;
