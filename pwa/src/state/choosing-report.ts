// The server's answer about which young birds to keep, and about how many eggs to set.
import { type Fields, fields, figure, problems, rows, type Told, text, texts } from "./answer-fields.ts";

export interface YoungBird {
  readonly bird: string;
  readonly label: string;
  readonly sex: string;
  readonly family: string | null;
  readonly keep: boolean;
  readonly why: string;
  readonly massG: number | null;
  readonly ageDays: number | null;
  /** Over the mean of its hatch and sex; null where too few were weighed beside it. */
  readonly aboveG: number | null;
  readonly beside: number;
  readonly passedOnG: number | null;
  readonly score: number | null;
  readonly faults: readonly string[];
  readonly carries: readonly string[];
}

export interface ChoosingReport {
  readonly by: string;
  readonly cocks: number;
  readonly hens: number;
  readonly birds: readonly YoungBird[];
  readonly words: readonly string[];
  readonly problems: readonly Told[];
  readonly computedMs: number;
}

/** Throws TypeError where the answer is not that of young birds. */
export function parseChoosing(value: unknown): ChoosingReport {
  const report = fields(value);
  const keep = fields(report.keep);
  if (!Array.isArray(report.birds) || typeof report.by !== "string")
    throw new TypeError("not a choice of birds");
  return {
    by: report.by,
    cocks: figure(keep.cocks) ?? 0,
    hens: figure(keep.hens) ?? 0,
    birds: rows(report.birds).map(young),
    words: texts(report.words),
    problems: problems(report.problems),
    computedMs: Date.parse(text(report.computed_at)) || 0,
  };
}

function young(row: Fields): YoungBird {
  const weight = fields(row.weight);
  return {
    bird: text(row.bird),
    label: text(row.label),
    sex: text(row.sex),
    family: text(row.family) || null,
    keep: row.keep === true,
    why: text(row.why),
    massG: figure(weight.mass_g),
    ageDays: figure(weight.age_days),
    aboveG: figure(weight.above_g),
    beside: figure(weight.n) ?? 0,
    passedOnG: figure(weight.passed_on_g),
    score: figure(fields(row.score).total),
    faults: texts(row.faults),
    carries: texts(row.carries),
  };
}
