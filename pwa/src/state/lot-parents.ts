import { lastAnswers } from "./last-answer.ts";

// Who the parents of a batch can be: a part of the server's answer about a brood, read at the door.

/** Names are null where that parent is not known, or not named. */
export interface LotPair {
  readonly sire: string | null;
  readonly dam: string | null;
  readonly chance: number;
}

export interface LotParents {
  readonly lot: string;
  readonly pairs: readonly LotPair[];
  readonly notes: readonly string[];
  readonly computedMs: number;
}

type Fields = Readonly<Record<string, unknown>>;

/** Throws TypeError where the answer is not a brood's report at all. An older server says nothing of parents. */
export function parseLotParents(value: unknown): LotParents {
  const report = fields(value);
  if (typeof report.lot !== "string" || typeof report.stages !== "object") {
    throw new TypeError("not a brood's report");
  }
  const { pairs, notes } = fields(report.parents);
  return {
    lot: report.lot,
    pairs: rows(pairs).map((row) => ({
      sire: text(row.sire_label) || null,
      dam: text(row.dam_label) || null,
      chance: typeof row.chance === "number" ? row.chance : 0,
    })),
    notes: Array.isArray(notes) ? notes.map(text).filter(Boolean) : [],
    computedMs: Date.parse(text(report.computed_at)) || 0,
  };
}

const brood = lastAnswers(parseLotParents);

export const lotParents = brood.answer;
export const askLotParents = (lot: string): Promise<void> => brood.ask(`/api/v1/reports/brood/${lot}`);

function fields(value: unknown): Fields {
  return typeof value === "object" && value !== null ? (value as Fields) : {};
}

const rows = (value: unknown): Fields[] => (Array.isArray(value) ? value.map(fields) : []);
const text = (value: unknown) => (typeof value === "string" ? value : "");
