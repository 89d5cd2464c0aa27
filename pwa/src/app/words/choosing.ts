// Choosing from a batch: who is kept, who is sold, given or culled.
import { plural } from "./everywhere.ts";

export const choosing = {
  gone: "There are no young to choose from here",
  goneRemedy: "Those that are kept stand among the birds.",
  title: (family: string, young: string) => `${family}: ${young} to choose from`,
  done: (family: string) => `${family}: all are chosen`,
  under: (age: string, kept: number) => (kept > 0 ? `${age}, ${kept} kept so far.` : `${age}.`),
  named: (n: number) =>
    n === 1
      ? "1 of those kept is still counted among the chicks of this batch as well."
      : `${n} of those kept are still counted among the chicks of this batch as well.`,
  join: (n: number) => `Count ${n === 1 ? "it" : `all ${n}`} as kept only`,
  ageUnknown: "Hatch day not known",
  age: (days: string) => `${days} old`,
  notBrooded: "Some are still in the basket at the hatch: bring them to a brooder before any is kept.",
  ways: { label: "What becomes of them", keep: "Keep", parted: "Sell or give", culled: "Cull" },
  sex: "Sex",
  many: "How many alike",
  tag: "Mark",
  tags: { none: "No mark of its own", wing: "Wing tag", web: "Web tag", chip: "Chip" },
  number: "Number",
  numberHint: (first: string, last: string) => `Numbers ${first} to ${last}, one for each.`,
  name: "Name",
  webs: (what: string) => `They keep the webs of their batch: ${what}.`,
  twice: (who: string) => `${who} wears this already. Two birds with one mark cannot be told apart.`,
  keep: (what: string) => `Keep ${what}`,
  keptSaid: (n: number) => `${plural(n, "bird", "birds")} kept.`,
  undo: "Take back",
  keptHere: "Kept from this batch",
  parents: "Each brings its candidate parents from batch and pen; the server works out their chances.",
  parentsTitle: "Who the parents can be",
  howMany: "How many",
  goSave: (n: number, what: string) => `${n} ${what}`,
  goWords: { parted: "sold or given", culled: "culled" },
  saved: (n: number, what: string) => `${n} written down: ${what}.`,
  lost: "Dead or missing chicks are written down with their brooder, with the cause.",
  compare:
    "Compare a bird with those of its own batch and sex only, at one weighing; one weighing says little of one bird.",
  weigh: "Weigh them",
  growth: "Weights and growth",
  birds: "All birds",
} as const;
