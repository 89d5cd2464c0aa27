// The counting screen: one egg, one tap. What opens beside it stands in tally-panels.ts, so that counting comes first.
import type { OwnWords } from "../../book/own-words.ts";

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
  soFar: (n: number) => `${n} so far`,
  all: (n: number) => `all ${n} so far`,
  lookAgain: (n: number) => `${n}, look again`,
  buttons: {
    hatched: "Hatched",
    pipped: "Pipped",
    weak: "Hatched, weak",
    helped: "Helped out",
    lost: "Hatched, died",
    none: "Nothing new",
    noneNote: "noted too",
  },
  rest: {
    candle: "The rest are live",
    lockdown: "The rest go in",
    hatch: "The rest did not hatch",
    open: "The rest are infertile",
  },
  typed: "Type a count",
  guide: "Which is it?",
  whenNow: "When: now",
  whenAt: (when: string) => `When: ${when}`,
  other: "Something else",
  again: "Count again",
  lastTitle: "Undo",
  lastOf: (whose: string, act: string) => `${whose}, ${act}`,
  out: (minutes: number) => `tray out ${minutes} min`,
  pile: "Open from",
  awake: "Keep the screen on while you count?",
  awakeYes: "Keep it on",
  awakeNo: "No",
  saying: (name: string, n: number, what: string) => `${name}, ${n} ${what}`,
  keys: "Keys 1 to 6 answer, 0 says the count, Backspace takes back.",
  amongNote: ({ family, hatch }: OwnWords) =>
    `Use this when the sign cannot be read. It counts for the ${hatch.one}; each ${family.one} shows it as possible.`,
  stripName: (name: string, parts: string) => `${name}: ${parts}`,
  stripOut: (parts: string) => `out: ${parts}`,
  gone: ({ hatch }: OwnWords) =>
    `This ${hatch.one} is not on this phone yet. It comes with the next connection.`,
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
  notWritten: "hatched, then not written of",
  locked: "Lockdown done",
} as const;
