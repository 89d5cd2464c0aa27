// Kinship of the birds, and the state of each breed.
import { pct } from "./answers.ts";
import { plural } from "./everywhere.ts";

export const kin = {
  waiting: "Kinship of the birds",
  keeps: (breed: string, diversity: number) => `${breed}: gene diversity ${Math.round(100 * diversity)} %`,
  nobody: "No bird is in the book yet",
  nobodyRemedy: "Write birds down under a pen or a hatch; then this page tells how kin they are.",
  atRisk: (label: string, n: number) =>
    `${label} lives on in ${plural(n, "bird", "birds")} only: breed from them.`,
  founders: (fe: string, fg: string) =>
    `Founder equivalents ${fe}, founder genome equivalents ${fg} (Lacy 1989).`,
  size: (ne: string) => `Effective size ${ne} by the birds that breed.`,
  sizeSoFar: (ne: string) => `By how inbreeding rose so far: ${ne}.`,
  pairing: "Pens for next season",
  choosing: "Which young birds to keep",
  wished: "How many eggs to set",
  birds: "The birds, least kin to the flock first",
  show: "Show",
  shown: { here: "Here", all: "All, gone ones too" },
  bird: "Bird",
  sex: "Sex",
  inbreeding: "Inbreeding",
  generations: "Generations known",
  kinship: "Mean kinship",
  unknown: "unknown",
  gone: "gone",
  lent: "lent",
  known: (generations: string) => `${generations} generations known`,
  range: (low: string, high: string) => `${low} to ${high}`,
  note: "Inbreeding: from all candidate parents by their chance; unknown is not none. Mean kinship: with all living birds of its breed; the lower, the better.",
  warnings: "What to mind",
  one: {
    title: (label: string, inbreeding: string) => `${label}: inbreeding ${inbreeding}`,
    over: "Forebears",
    under: (generations: string) => `As far as is written down: ${generations} generations on average.`,
    none: "Nothing is written of its forebears.",
    missing: "No such bird is in the server's answer",
    missingRemedy: "Ask again when all is on the server.",
    all: "All birds",
    page: "The bird itself",
    tree: (label: string) => `Forebears of ${label}`,
    notes: "What is not sure",
    chicks: "Its chicks",
    chickOf: (chance: string) => `${chance} its own`,
    table: "The same as a list",
    place: "Place",
    who: "Who it was",
    chance: "Chance",
    nobody: "not known",
    more: (n: number) => `and ${n} more`,
  },
  side: (side: "sire" | "dam", cock: string) => (side === "sire" ? cock : "hen"),
  /** "cock", "hen of the cock" (its father's mother). */
  way: (sides: readonly ("sire" | "dam")[], cock: string) =>
    [...sides]
      .reverse()
      .map((side) => (side === "sire" ? cock : "hen"))
      .join(" behind the "),
  sexes: { male: "male", female: "female", unknown: "not sexed" } as Readonly<Record<string, string>>,
  inbreedingTold: (share: number | null) => (share === null ? "unknown" : pct(share)),
} as const;
