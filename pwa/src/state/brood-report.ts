// The server's answer about a batch of chicks, read at the door: what is not there is left out, never made up.

export interface SurvivalStep {
  readonly day: number;
  readonly rate: number;
  readonly low: number | null;
  readonly high: number | null;
}

/** Chicks of one family of one hatch. */
export interface SurvivalGroup {
  readonly family: string | null;
  readonly familyName: string;
  readonly hatchedOn: string;
  readonly n: number;
  readonly lastDay: number;
  readonly points: readonly SurvivalStep[];
}

export interface BroodAlarm {
  readonly on: string;
  readonly words: string;
  readonly thinkOf: string;
  readonly source: string;
}

export interface BroodReport {
  readonly lot: string;
  readonly groups: readonly SurvivalGroup[];
  /** Whether families of the hatch differ beyond chance; "" where there is one alone. */
  readonly verdict: string;
  readonly alarms: readonly BroodAlarm[];
  /** How many dead on one day would be too many, and how many live elsewhere at this age. */
  readonly toWatch: readonly string[];
  readonly computedMs: number;
}

type Fields = Readonly<Record<string, unknown>>;

/** Throws TypeError where the answer is not a brood's report at all. */
export function parseBrood(value: unknown): BroodReport {
  const report = fields(value);
  if (typeof report.lot !== "string" || !Array.isArray(report.alarms)) {
    throw new TypeError("not a brood's report");
  }
  const by = fields(report.survival_by);
  return {
    lot: report.lot,
    groups: rows(by.groups).map((row) => ({
      family: typeof row.family === "string" ? row.family : null,
      familyName: text(row.family_name),
      hatchedOn: text(row.hatched_on),
      n: figure(row.n) ?? 0,
      lastDay: figure(row.last_day) ?? 0,
      points: rows(row.points).flatMap(step),
    })),
    verdict: text(by.words),
    alarms: rows(report.alarms).map((row) => ({
      on: text(row.on),
      words: text(row.words),
      thinkOf: text(row.think_of),
      source: text(row.source),
    })),
    toWatch: texts(fields(report.to_watch).words),
    computedMs: Date.parse(text(report.computed_at)) || 0,
  };
}

function step(row: Fields): SurvivalStep[] {
  const day = figure(row.day);
  const rate = figure(row.rate);
  return day === null || rate === null ? [] : [{ day, rate, low: figure(row.low), high: figure(row.high) }];
}

function fields(value: unknown): Fields {
  return typeof value === "object" && value !== null ? (value as Fields) : {};
}

const rows = (value: unknown): Fields[] => (Array.isArray(value) ? value.map(fields) : []);
const texts = (value: unknown) => (Array.isArray(value) ? value.map(text).filter(Boolean) : []);
const text = (value: unknown) => (typeof value === "string" ? value : "");
const figure = (value: unknown) => (typeof value === "number" && Number.isFinite(value) ? value : null);
