// Chicks that died, were culled or are missing: written down with a cause, and what it says.
import { plural } from "./everywhere.ts";

export const losses = {
  title: "Losses",
  ways: { died: "Dead", culled: "Culled", unaccounted: "Missing" },
  after: { died: "died", culled: "culled", unaccounted: "missing" },
  askOf: { died: "Who died", culled: "Who was culled", unaccounted: "Who is missing" },
  whose: "Whose",
  notKnown: "Not known whose",
  howMany: "How many",
  cause: "Why",
  causeHint: "As far as you know. It is left open where you do not.",
  causes: {
    "": "Not known",
    weak: "Weak from the start",
    smothered: "Smothered in a heap",
    chilled: "Chilled",
    drowned: "Drowned",
    legs: "Legs",
    navel: "Navel not closed",
    disease: "Ill",
    injury: "Injured",
    predator_fox: "Fox",
    predator_rat: "Rat",
    predator_bird: "Bird of prey or crow",
    predator_other: "Another predator",
    other: "Something else",
  } as Readonly<Record<string, string>>,
  save: (n: number, name: string, how: string) => `Write down: ${n} ${name} ${how}`,
  saved: (n: number, name: string, how: string) => `${n} ${name} ${how}.`,
  none: "Nobody died, was culled or is missing.",
  line: (n: number, how: string, why: string) => (why ? `${n} ${how}: ${why}` : `${n} ${how}`),
  found: "Found again: put 1 back",
  foundOfOne: (families: string) => `Found again, of ${families}: put 1 back`,
  foundLine: (n: number) => `${n} found again`,
  ofOne: (families: string) => `of ${families}, not known whose`,
  cullingNote:
    "How to put a bird down is for a vet or a trained person to show: ask yours, or read what the AVMA Guidelines or the Humane Slaughter Association say.",
  together: "Several at once by one cause: no chance, so no alarm is reckoned from it.",
  recent: (n: number) => `${plural(n, "chick", "chicks")} died here within a day.`,
  firstWeek: "First week",
  week: {
    unknown: "Not known yet: none of them is a week old.",
    few: (k: number, n: number) =>
      `${k} of ${n} died or went missing${k === 1 ? "; one death is no pattern" : ""}.`,
    many: (k: number, n: number, pct: string) => `${k} of ${n} died or went missing, ${pct} %.`,
    perhaps: (n: number) => `Up to ${n} more, not known whose.`,
    together: (families: string, told: string) => `${families} together: ${told}`,
    untold: (n: number) =>
      `Not known: nobody wrote what became of ${plural(n, "chick", "chicks")} of this batch.`,
    cannotBe: "Not told: these counts cannot be.",
    culled: (n: number) => `${n} more were culled.`,
    why: {
      about: "the first week",
      formula:
        "Dead and missing within seven days, out of those that are a week old and were not sold or given before.",
    },
  },
  survival: {
    title: "Alive, day by day",
    chart: (name: string, alive: string) => `${name}: share alive by day. ${alive}`,
    axes: "days since they hatched; alive of a hundred",
    none: "None died.",
    alive: (pct: number, low: number, high: number, day: number) =>
      `${pct} of 100 alive after day ${day}, the true share ${low} to ${high}.`,
    gone: (day: number) => `None alive after day ${day}.`,
    all: (day: number) => `All alive on day ${day}.`,
    row: (family: string, on: string, n: number) => `${family}, ${n} hatched ${on}`,
    note: "Dead and missing count as lost; culled, sold and given count as alive until they left.",
    why: {
      about: "these shares",
      formula:
        "Product-limit curve with its 95 % interval on the log-log scale; families compared by log-rank, Holm.",
      source: "Kaplan and Meier 1958",
    },
    asked: (when: string) => `The server's answer of ${when}.`,
    away: "Once the server was asked, survival by family and hatch stands here.",
  },
  alarms: "More than their age explains",
  alarmOn: (on: string) => `${on}:`,
  call: {
    title: "What to do, whom to call",
    flu: "Sudden deaths, swollen heads, blue combs or legs, nodding or twisted necks, no appetite: move no bird, egg or litter and call your vet or the animal health authority at once. It may be avian influenza, and the law wants it told.",
    sample:
      "A dead chick that is fresh and cool can be looked at by a vet or a laboratory; a frozen one hardly.",
    apart: "Keep the ill apart, tend the healthy first, wash hands and change shoes between places.",
    hands: "Wash your hands; no children under 5, no birds in the kitchen.",
    sources: "Signs: USDA APHIS, Cornell. When to call: Michigan Department of Agriculture. Hands: CDC.",
  },
} as const;

/** A cause by its code, as a keeper reads it; one that another app wrote is told as it stands. */
export const causeWords = (code: string): string =>
  code === "unknown" ? (losses.causes[""] ?? code) : (losses.causes[code] ?? code);
