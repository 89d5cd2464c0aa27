// Young birds: which to keep for breeding, which may go.
import { plural } from "./everywhere.ts";

export const youngKept = {
  waiting: "Which young birds to keep",
  headline: (cockerels: number, pullets: number, of: number) =>
    `Keep ${plural(cockerels, "cockerel", "cockerels")} and ${plural(pullets, "pullet", "pullets")} of ${plural(of, "young bird", "young birds")}`,
  none: "No young bird is written down yet",
  noneRemedy: "Give each a ring, its sex and its batch; then weights and scores tell them apart.",
  wishes: "How many, and by what",
  cocks: "Cockerels to keep",
  hens: "Pullets to keep",
  asPens: "As many as stand in the pens",
  by: "Which is the better",
  bys: { score: "By score", weight: "By weight" },
  keep: "To keep",
  go: "May be sold or given",
  sexes: { male: "cockerel", female: "pullet", unknown: "not sexed" } as Readonly<Record<string, string>>,
  bird: "Bird",
  weight: "Against its hatch and sex",
  passes: "Passes on",
  score: "Score",
  notWeighed: "not weighed",
  alone: (mass: string) => `${mass}, too few beside it`,
  against: (mass: string, by: string, isAbove: boolean, of: number) =>
    `${mass}, ${by} ${isAbove ? "above" : "below"} the mean of ${of}`,
  faults: (faults: string) => `fault: ${faults}`,
  more: "What to mind",
  note: "Each stands against its own hatch and sex. Only the heritable part of its lead is passed on. First a son of each cock and daughters of many hens, then the better bird; one with a fault last.",
  cull: "What may go is the keeper's to judge; for culling ask your vet and follow local rules.",
} as const;
