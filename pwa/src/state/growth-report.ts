// The server's answer about weights, read at the door: what is not there reads as not known, never as a number.
import { fields, figure, rows, text } from "./answer-fields.ts";

/** A curve that the weights carry. Parameters as trade/growth.py names them: logistic A, m, s; Gompertz A, b, k. */
export interface Curve {
  readonly model: string;
  readonly parameters: Readonly<Record<string, number>>;
  readonly inflectionDay: number;
}

/** One batch and sex on one day. */
export interface Group {
  readonly lot: string | null;
  readonly family: string | null;
  readonly sex: string;
  readonly on: string;
  readonly ageDays: number | null;
  readonly n: number;
  readonly meanG: number;
  readonly cvPct: number | null;
  readonly withinPct: number;
  /** What weights spread by chance would have there with the same variation. */
  readonly expectedPct: number | null;
  readonly curve: Curve | null;
  /** Why there is no curve; empty where there is one. */
  readonly refused: string;
}

/** A bird known by itself at its last weighing. */
export interface Ranked {
  readonly bird: string;
  readonly label: string;
  readonly massG: number;
  readonly ofMeanPct: number;
  readonly slow: boolean;
  readonly rank: number;
  readonly of: number;
  readonly lot: string | null;
  readonly sex: string;
}

export interface GrowthReport {
  readonly groups: readonly Group[];
  readonly birds: readonly Ranked[];
  readonly goals: readonly { readonly pct: number; readonly words: string; readonly source: string }[];
  readonly problems: readonly { readonly message: string; readonly remedy: string }[];
  readonly computedMs: number;
}

/** Throws TypeError where the answer is not a report of weights at all. */
export function parseGrowth(value: unknown): GrowthReport {
  const report = fields(value);
  if (!Array.isArray(report.groups) || !Array.isArray(report.birds) || !Array.isArray(report.goals)) {
    throw new TypeError("not a report of weights");
  }
  return {
    groups: rows(report.groups).map((row) => ({
      lot: text(row.lot) || null,
      family: text(row.family_name) || null,
      sex: text(row.sex),
      on: text(row.on),
      ageDays: figure(row.age_days),
      n: figure(row.n) ?? 0,
      meanG: figure(row.mean_g) ?? 0,
      cvPct: figure(row.cv_pct),
      withinPct: figure(row.within_10_pct) ?? 0,
      expectedPct: figure(row.within_10_expected_pct),
      curve: curve(row.fit),
      refused: text(row.refused),
    })),
    birds: rows(report.birds).map((row) => ({
      bird: text(row.bird),
      label: text(row.label),
      massG: figure(row.mass_g) ?? 0,
      ofMeanPct: figure(row.of_mean_pct) ?? 0,
      slow: row.slow === true,
      rank: figure(row.rank) ?? 0,
      of: figure(fields(row.group).n) ?? 0,
      lot: text(fields(row.group).lot) || null,
      sex: text(fields(row.group).sex),
    })),
    goals: rows(report.goals).map((row) => ({
      pct: figure(row.pct) ?? 0,
      words: text(row.words),
      source: text(row.source),
    })),
    problems: rows(report.problems).map((row) => ({ message: text(row.message), remedy: text(row.remedy) })),
    computedMs: Date.parse(text(report.computed_at)) || 0,
  };
}

function curve(value: unknown): Curve | null {
  const fit = fields(value);
  const parameters = Object.fromEntries(
    Object.entries(fields(fit.parameters)).flatMap(([name, n]) => (typeof n === "number" ? [[name, n]] : [])),
  );
  const inflectionDay = figure(fit.inflection_day);
  return inflectionDay === null ? null : { model: text(fit.model), parameters, inflectionDay };
}
