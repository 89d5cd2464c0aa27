// The server's answers about the birds' kinship and the state of the flock.
import { type Fields, fields, figure, problems, rows, type Told, text, texts } from "./answer-fields.ts";

/** A cock and a hen that may be the parents; null for one that is not known. Chances of a bird sum to at most one. */
export interface ParentPair {
  readonly sire: string | null;
  readonly dam: string | null;
  readonly chance: number;
}

/** inbreeding: null where nothing is known of the forebears. generations: how far back they are known, on average. */
export interface KinBird {
  readonly bird: string;
  readonly label: string;
  readonly sex: string;
  readonly family: string | null;
  readonly where: string;
  readonly inbreeding: number | null;
  readonly low: number;
  readonly high: number;
  readonly generations: number;
  readonly meanKinship: number | null;
  readonly parents: readonly ParentPair[];
  readonly notes: readonly string[];
}

export interface KinReport {
  readonly birds: readonly KinBird[];
  readonly warnings: readonly string[];
  readonly problems: readonly Told[];
  readonly computedMs: number;
}

export interface FlockBreed {
  readonly breed: string;
  readonly cocks: number;
  readonly hens: number;
  readonly size: number | null;
  /** Effective size by how fast inbreeding rose so far; null where no pedigree is deep enough. */
  readonly sizeSoFar: number | null;
  readonly risePct: number | null;
  readonly diversity: number;
  readonly founderEquivalents: number | null;
  readonly founderGenomes: number | null;
  readonly atRisk: readonly { readonly label: string; readonly descendants: number }[];
  readonly words: readonly string[];
}

export interface FlockReport {
  readonly breeds: readonly FlockBreed[];
  readonly computedMs: number;
}

/** Throws TypeError where the answer is not that of the birds. */
export function parseKin(value: unknown): KinReport {
  const report = fields(value);
  if (!Array.isArray(report.birds)) throw new TypeError("not a report of birds");
  return {
    birds: rows(report.birds).map(kinBird),
    warnings: texts(report.warnings),
    problems: problems(report.problems),
    computedMs: Date.parse(text(report.computed_at)) || 0,
  };
}

/** Throws TypeError where the answer is not that of the flock. */
export function parseFlock(value: unknown): FlockReport {
  const report = fields(value);
  if (!Array.isArray(report.breeds)) throw new TypeError("not a report of the flock");
  return {
    breeds: rows(report.breeds).map((row) => ({
      breed: text(row.breed),
      cocks: figure(row.cocks) ?? 0,
      hens: figure(row.hens) ?? 0,
      size: figure(row.ne),
      sizeSoFar: figure(row.ne_from_pedigree),
      risePct: figure(row.delta_f_pct),
      diversity: figure(row.gene_diversity) ?? 0,
      founderEquivalents: figure(row.founder_equivalents),
      founderGenomes: figure(row.founder_genome_equivalents),
      atRisk: rows(row.founders_at_risk).map((one) => ({
        label: text(one.label),
        descendants: figure(one.descendants) ?? 0,
      })),
      words: texts(row.words),
    })),
    computedMs: Date.parse(text(report.computed_at)) || 0,
  };
}

function kinBird(row: Fields): KinBird {
  const generations = figure(row.completeness) ?? 0;
  // With a founder the line begins; of the bird itself 0 % would say more than anybody knows.
  const inbreeding = generations ? figure(row.F) : null;
  return {
    bird: text(row.bird),
    label: text(row.label),
    sex: text(row.sex),
    family: text(row.family) || null,
    where: text(row.where),
    inbreeding,
    low: figure(row.F_low) ?? inbreeding ?? 0,
    high: figure(row.F_high) ?? inbreeding ?? 0,
    generations,
    meanKinship: figure(row.mean_kinship),
    parents: rows(row.parents).map((pair) => ({
      sire: text(pair.sire) || null,
      dam: text(pair.dam) || null,
      chance: figure(pair.chance) ?? 0,
    })),
    notes: texts(row.notes),
  };
}
