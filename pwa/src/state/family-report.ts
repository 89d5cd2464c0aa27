// The server's answer about the birds of the flock, read at the door: what is not there reads as not known.

/** Two that can be the parents of a bird, with their chance; null where that one is not known. */
export interface ParentPair {
  readonly sire: string | null;
  readonly dam: string | null;
  readonly chance: number;
}

export interface BirdTold {
  readonly bird: string;
  /** Inbreeding; null where nothing is known of its forebears. */
  readonly f: number | null;
  readonly parents: readonly ParentPair[];
  readonly notes: readonly string[];
}

export interface FamilyReport {
  readonly birds: readonly BirdTold[];
  readonly computedMs: number;
}

type Fields = Readonly<Record<string, unknown>>;

/** Throws TypeError where the answer is not a report of birds at all. */
export function parseFamily(value: unknown): FamilyReport {
  const report = fields(value);
  if (!Array.isArray(report.birds) || typeof report.founders !== "object") {
    throw new TypeError("not a report of birds");
  }
  return {
    birds: rows(report.birds).map((row) => ({
      bird: text(row.bird),
      f: figure(row.F),
      parents: rows(row.parents).map((pair) => ({
        sire: text(pair.sire) || null,
        dam: text(pair.dam) || null,
        chance: figure(pair.chance) ?? 0,
      })),
      notes: Array.isArray(row.notes) ? row.notes.map(text).filter(Boolean) : [],
    })),
    computedMs: Date.parse(text(report.computed_at)) || 0,
  };
}

function fields(value: unknown): Fields {
  return typeof value === "object" && value !== null ? (value as Fields) : {};
}

const rows = (value: unknown): Fields[] => (Array.isArray(value) ? value.map(fields) : []);
const text = (value: unknown) => (typeof value === "string" ? value : "");
const figure = (value: unknown) => (typeof value === "number" && Number.isFinite(value) ? value : null);
