// One page for a season: what was seen, how sure it is, and where the eggs went.

import type { OwnWords } from "../../book/own-words.ts";
import { capital } from "./capital.ts";
import { plural } from "./everywhere.ts";

const points = (share: number): string => {
  const n = Math.round(share * 100);
  return `${n > 0 ? "+" : n < 0 ? "−" : ""}${Math.abs(n)}`;
};

export const season = {
  over: (year: number, when: string) => `Season ${year}, as worked out ${when}`,
  of: (year: number) => `Season ${year}`,
  earlier: (year: number) => `Earlier season, ${year}`,
  later: (year: number) => `Later season, ${year}`,
  print: "Print",
  waiting: "Asking the server for the season",
  none: {
    title: "The season is worked out on the server",
    unpaired: "Pair this phone with your server and the season comes with the next connection.",
    away: "The server cannot be reached, and this phone has no earlier answer for this season. Everything you write is kept.",
    go: "Pair this phone",
    again: "Ask again",
  },
  stale: (when: string) => `The server cannot be reached; this is its answer of ${when}.`,
  families: ({ family }: OwnWords) => `${capital(family.one)} by ${family.one}`,
  family: ({ family }: OwnWords) => capital(family.one),
  set: "Set",
  fertile: "Fertile, of those judged",
  hatched: "Hatched, of the fertile",
  hatchOfSet: "Hatched, of those set",
  alive: "Alive at a week",
  count: (k: number, n: number) => `${k} of ${n}`,
  more: (n: number) => `up to ${n} more`,
  tiny: "under 0.001",
  noRate: "not known yet",
  inMachine: "still in a machine",
  rateName: (what: string, family: string, k: number, n: number, low: number, high: number) =>
    `${family}, ${what}: ${k} of ${n}, true rate between ${low} and ${high} %`,
  laying: (families: string) => `Eggs a day from a hundred hens, of eggs in hen days: ${families}.`,
  laid: (name: string, pct: number, eggs: number, days: number) => `${name} ${pct} (${eggs} in ${days})`,
  barNote: ({ hatch }: OwnWords) =>
    `Dot: what was seen. Bar: where the true rate lies, 95 times in 100. ${capital(hatch.many)} still running are left out.`,
  how: "How this is worked out",
  howText: ({ family }: OwnWords) =>
    `Bars are Wilson intervals. The overall test asks whether ${family.many} differ at all; pairs are compared exactly, with Holm's correction. The drawn-in rate pulls small ${family.many} towards the flock, as far as the season's spread allows. It says what was seen, not whose fault it was: cock, hens, age of eggs and machine are not told apart.`,
  shrunk: "Drawn in towards the flock",
  best: "Chance of being the best",
  pairs: "Pair by pair",
  pairNames: (a: string, b: string) => `${a} less ${b}`,
  pairOf: ({ family }: OwnWords) => capital(family.many),
  difference: "Difference",
  between: "Between",
  pHead: "p, corrected",
  funnelSteps: {
    set: "set",
    examined: "judged",
    fertile: "fertile",
    hatched: "hatched",
    alive: "alive now",
    flock: "grown and kept",
  } as Readonly<Record<string, string>>,
  losses: ({ hatch }: OwnWords) => `Died in the shell, in ${hatch.many} that are over`,
  deaths: {
    early: "Early",
    mid: "Midway",
    late: "Late",
    internal_pip: "At internal pip",
    external_pip: "At external pip",
    unopened: "Not opened",
  },
  short: (family: string, told: string) => `${family}: ${told}`,
  groups: {
    by_egg_age: "By the oldest egg's age when set",
    by_place: "By machine",
    by_month: "By month set",
  },
  funnelUntold: (n: number) =>
    `Nothing more is written of ${plural(n, "chick", "chicks")}: neither alive now nor lost.`,
  funnelRunning: (n: number) => `${plural(n, "egg", "eggs")} of these still in a machine.`,
  ages: (from: string, to: string) => (to ? `${from} to ${to} days` : `${from} days and more`),
  ageUnknown: "not known",
  range: (rate: number, low: number | null, high: number | null) =>
    low === null || high === null
      ? `${Math.round(rate * 100)} %`
      : `${Math.round(rate * 100)} % (${Math.round(low * 100)} to ${Math.round(high * 100)})`,
  percent: (share: number) => `${Math.round(share * 100)} %`,
  points: (share: number) => `${points(share)} points`,
  pointsBetween: (low: number, high: number) => `${Math.round(low * 100)} to ${Math.round(high * 100)}`,
  problems: "To settle first",
  moreProblems: (n: number) => `And ${n} more, in the book.`,
  windows: {
    hatch: "Set",
    out: "Days from the first chick seen to the last",
    days: (first: string, last: string) => `${first} to ${last}`,
    usual: (species: string) => `Usual, ${species}`,
    note: "Dot: half of them out. Bar: from the look with the first chick to the look with the last. Days since the eggs were set.",
    name: (where: string, days: string, half: string) =>
      `${where}: day ${days}, half out by day ${half || "not known"}`,
  },
  chicks: {
    age: "Age, days",
    lost: "Lost, of those past that age",
    died: "Died",
    missing: "Missing",
    culled: "Culled",
    ages: (from: number, to: number) => `${from} to ${to}`,
    days: (from: number, to: number) => `${from} to ${to} days`,
  },
  before: {
    now: "This season",
    earlier: "Seasons before",
    apart: "Difference, points",
    points: (difference: number, low: number, high: number) =>
      `${points(difference)} (${points(low)} to ${points(high)})`,
  },
  season: "Season",
} as const;
