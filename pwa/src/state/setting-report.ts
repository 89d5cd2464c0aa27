// The server's answer about a setting, read at the door: what is not there is left out, never made up.
import { type Fields, fields, figure, rows, text } from "./answer-fields.ts";

/** A sentence and where it was read. */
export interface Read {
  readonly words: string;
  readonly source: string;
}

/** What stands out in the losses. causes: what is often seen with it, never proof. */
export interface StandsOut extends Read {
  readonly finding: string;
  /** What it is by the tables: where on the line of days it belongs. */
  readonly code: string;
  readonly causes: readonly Read[];
}

/** A spell outside the band of the air, or without power (way "power"). */
export interface Spell {
  readonly way: "hot" | "cold" | "power";
  readonly fromMs: number;
  readonly hours: number | null;
  readonly worstC: number | null;
  readonly tier: string;
}

export interface SettingReport {
  readonly setting: string;
  readonly summary: string;
  readonly losses: readonly StandsOut[];
  readonly hatch: readonly { readonly words: string; readonly causes: readonly Read[] }[];
  readonly notes: readonly Read[];
  readonly spells: readonly Spell[];
  readonly guidance: readonly Read[];
  readonly judgement: string;
  readonly published: readonly Read[];
  readonly problems: readonly { readonly message: string; readonly remedy: string }[];
  readonly computedMs: number;
}

/** Throws TypeError where the answer is not a setting's report at all. */
export function parseSetting(value: unknown): SettingReport {
  const report = fields(value);
  if (typeof report.setting !== "string" || !Array.isArray(report.lots)) {
    throw new TypeError("not a setting's report");
  }
  const air = fields(report.air);
  return {
    setting: report.setting,
    summary: text(report.summary),
    losses: rows(report.pattern).map((row) => ({
      finding: text(row.finding),
      code: text(row.code),
      words: text(row.evidence),
      source: text(row.source),
      causes: reads(row.causes),
    })),
    hatch: rows(fields(report.hatch).meanings).map((row) => ({
      words: text(row.words),
      causes: reads(row.causes),
    })),
    notes: reads(report.notes),
    spells: [...rows(air.excursions).map(excursion), ...rows(air.outages).map(outage)].sort(
      (a, b) => a.fromMs - b.fromMs,
    ),
    guidance: reads(air.guidance),
    judgement: text(air.judgement),
    published: reads(air.published),
    problems: rows(report.problems).map((row) => ({ message: text(row.message), remedy: text(row.remedy) })),
    computedMs: Date.parse(text(report.computed_at)) || 0,
  };
}

function excursion(row: Fields): Spell {
  return {
    way: row.way === "hot" ? "hot" : "cold",
    fromMs: Date.parse(text(row.from)) || 0,
    hours: figure(row.hours),
    worstC: figure(row.dry_c),
    tier: text(row.tier),
  };
}

function outage(row: Fields): Spell {
  const fromMs = Date.parse(text(row.from)) || 0;
  return { way: "power", fromMs, hours: figure(row.hours), worstC: null, tier: "" };
}

const reads = (value: unknown): Read[] =>
  rows(value).map((row) => ({ words: text(row.words), source: text(row.source) }));
