// The server's answer about a season, read at the door: what is not there reads as not known, never as a number.
import type { Rate } from "../trade/proportions.ts";
import { type Fields, fields, figure, figures, rows, text } from "./answer-fields.ts";

export interface Interval {
  readonly rate: number | null;
  readonly low: number | null;
  readonly high: number | null;
}

export interface SeasonRates {
  readonly set: number;
  readonly fertility: Rate;
  readonly hatch_of_set: Rate;
  readonly hatch_of_fertile: Rate;
  readonly alive_7d: Rate;
}

export interface SeasonFamily extends SeasonRates {
  readonly family: string;
  readonly name: string;
  /** Its name, with the species where that is another than most families'. */
  readonly label: string;
  readonly running: number;
  readonly shrunk: Interval;
  readonly best_probability: number | null;
  /** How many died in the shell, by class. */
  readonly deaths: Readonly<Record<string, number>>;
  /** What the sums are short of, in words; null where all eggs are accounted for. */
  readonly closing: string | null;
  /** Eggs gathered in so many hen days; null where the pen was not known on each of them. */
  readonly laying: { readonly eggs: number; readonly hen_days: number; readonly hen_day_pct: number } | null;
}

export interface SeasonPair {
  readonly a: string;
  readonly b: string;
  readonly difference: number;
  readonly low: number;
  readonly high: number;
  readonly p_holm: number | null;
}

export interface SeasonStep {
  readonly step: string;
  readonly n: number;
  readonly running: number;
  /** How many were lost since the step before, and how many sold or given, in words. */
  readonly away: string;
  /** Of the chicks that hatched, those of whom nobody wrote what became of them: neither here nor lost. */
  readonly notWritten: number;
}

/** A row of a grouping; `key` is what it is grouped by, as the server names it. */
export interface SeasonGroup extends SeasonRates {
  readonly key: string;
}

/** When a hatch came out, in hours since it was set; usual: from when to when its species does. */
export interface SeasonHatch {
  readonly setting: string;
  readonly place: string;
  readonly set_words: string;
  readonly species: string;
  readonly first_h: number;
  readonly median_h: number | null;
  readonly last_h: number;
  readonly usual_h: readonly [number, number] | null;
}

/** Chicks lost at an age in days; lost: of those that came to it and are past it. */
export interface ChickLoss {
  readonly from_days: number;
  readonly to_days: number;
  readonly died: number;
  readonly missing: number;
  readonly culled: number;
  readonly lost: Rate;
}

/** Hatch of those set now and in the seasons before, their difference in shares with its interval. */
export interface FamilyAgainst {
  readonly family: string;
  readonly name: string;
  readonly now: Rate;
  readonly before: Rate;
  readonly difference: number;
  readonly low: number;
  readonly high: number;
}

/** A species' seasons before, the latest first, and each family against its own; words: what that comes to. */
export interface SeasonAgainst {
  readonly species: string;
  readonly name: string;
  readonly years: readonly (SeasonRates & { readonly year: number })[];
  readonly families: readonly FamilyAgainst[];
  readonly words: string;
}

/** The finding of each part; a dash in an answer that an older server gave. */
const PARTS = [
  "headline",
  "under",
  "families",
  "funnel",
  "windows",
  "compared",
  "losses",
  "chicks",
  "groups",
  "earlier",
] as const;
export type SeasonTitles = Readonly<Record<(typeof PARTS)[number], string>>;

export interface SeasonReport {
  readonly year: number;
  readonly settings: number;
  readonly titles: SeasonTitles;
  readonly families: readonly SeasonFamily[];
  /** Families with eggs in a season before and none in this, in words. */
  readonly unset: string;
  readonly pairs: readonly SeasonPair[];
  readonly funnel: readonly SeasonStep[];
  readonly hatches: readonly SeasonHatch[];
  /** Which hatches have no window, and why, in words. */
  readonly left_out: string;
  readonly chick_losses: readonly ChickLoss[];
  /** The end of an axis from 0 on which all their intervals lie, a share of 1. */
  readonly chick_scale: number;
  readonly against: readonly SeasonAgainst[];
  readonly by_egg_age: readonly SeasonGroup[];
  readonly by_place: readonly SeasonGroup[];
  readonly by_month: readonly SeasonGroup[];
  /** What keeping eggs costs: commercial flocks' average, and the holding's own once there are enough. */
  readonly storage: string;
  /** path: the page that settles it; where: that in words. */
  readonly problems: readonly Readonly<Record<"message" | "remedy" | "path" | "where", string>>[];
  readonly computed_at: string;
}

function layingOf(value: unknown): SeasonFamily["laying"] {
  const { eggs, hen_days, hen_day_pct } = fields(value);
  const found = { eggs: figure(eggs), hen_days: figure(hen_days), hen_day_pct: figure(hen_day_pct) };
  return found.eggs === null || found.hen_days === null || found.hen_day_pct === null
    ? null
    : { eggs: found.eggs, hen_days: found.hen_days, hen_day_pct: found.hen_day_pct };
}

/** Throws TypeError where the answer is not a season's report at all. */
export function parseSeason(value: unknown): SeasonReport {
  const report = fields(value);
  if (typeof report.year !== "number" || !Array.isArray(report.families)) {
    throw new TypeError("not a season's report");
  }
  return {
    year: report.year,
    settings: figure(report.settings) ?? 0,
    titles: titles(fields(report.titles)),
    families: rows(report.families).map((row) => ({
      ...rates(row),
      family: text(row.family),
      name: text(row.name),
      label: text(row.label) || text(row.name),
      running: figure(row.running) ?? 0,
      notWritten: figure(row.not_written) ?? 0,
      shrunk: interval(fields(row.shrunk)),
      best_probability: figure(row.best_probability),
      deaths: figures(row.deaths),
      closing: (figure(fields(row.closing).short_by) ?? 0) === 0 ? null : text(fields(row.closing).words),
      laying: layingOf(row.laying),
    })),
    unset: text(report.unset),
    pairs: rows(report.pairs).map((row) => ({
      a: text(row.a),
      b: text(row.b),
      difference: figure(row.difference) ?? 0,
      low: figure(row.low) ?? 0,
      high: figure(row.high) ?? 0,
      p_holm: figure(row.p_holm),
    })),
    funnel: rows(report.funnel).map((row) => ({
      step: text(row.step),
      n: figure(row.n) ?? 0,
      running: figure(row.running) ?? 0,
      away: text(row.away),
      notWritten: figure(row.not_written) ?? 0,
    })),
    hatches: rows(report.hatches).map(hatch),
    left_out: text(fields(report.hatches_left_out).words),
    chick_losses: rows(report.chick_losses).map((row) => ({
      from_days: figure(row.from_days) ?? 0,
      to_days: figure(row.to_days) ?? 0,
      died: figure(row.died) ?? 0,
      missing: figure(row.missing) ?? 0,
      culled: figure(row.culled) ?? 0,
      lost: rate(row.lost),
    })),
    chick_scale: figure(report.chick_scale) ?? 1,
    against: rows(report.against).map(against),
    by_egg_age: rows(report.by_egg_age).map((row) => ({ ...rates(row), key: ageKey(row) })),
    by_place: rows(report.by_place).map((row) => ({ ...rates(row), key: text(row.name) })),
    by_month: rows(report.by_month).map((row) => ({ ...rates(row), key: text(row.month) })),
    storage: text(fields(report.storage).words),
    problems: rows(report.problems).map((row) => ({
      message: text(row.message),
      remedy: text(row.remedy),
      path: text(row.path),
      where: text(row.where),
    })),
    computed_at: text(report.computed_at),
  };
}

function hatch(row: Fields): SeasonHatch {
  const [from, to] = Array.isArray(row.usual_h) ? row.usual_h.map(figure) : [];
  return {
    setting: text(row.setting),
    place: text(row.place_name),
    set_words: text(row.set_words),
    species: text(row.species),
    first_h: figure(row.first_h) ?? 0,
    median_h: figure(row.median_h),
    last_h: figure(row.last_h) ?? 0,
    usual_h: typeof from === "number" && typeof to === "number" ? [from, to] : null,
  };
}

function against(row: Fields): SeasonAgainst {
  return {
    species: text(row.species),
    name: text(row.species_name),
    years: rows(row.years).map((one) => ({ ...rates(one), year: figure(one.year) ?? 0 })),
    families: rows(row.families).map((one) => ({
      family: text(one.family),
      name: text(one.name),
      now: rate(one.now),
      before: rate(one.before),
      difference: figure(one.difference) ?? 0,
      low: figure(one.low) ?? 0,
      high: figure(one.high) ?? 0,
    })),
    words: text(row.words),
  };
}

const titles = (row: Fields): SeasonTitles =>
  Object.fromEntries(PARTS.map((part) => [part, text(row[part]) || "–"])) as SeasonTitles;

/** "8-10", "15-" or "" where the age is not known. */
function ageKey(row: Fields): string {
  const from = figure(row.from_days);
  return from === null ? "" : `${from}-${figure(row.to_days) ?? ""}`;
}

function rates(row: Fields): SeasonRates {
  return {
    set: figure(row.set) ?? 0,
    fertility: rate(row.fertility),
    hatch_of_set: rate(row.hatch_of_set),
    hatch_of_fertile: rate(row.hatch_of_fertile),
    alive_7d: rate(row.alive_7d),
  };
}

function rate(value: unknown): Rate {
  const row = fields(value);
  return { k: figure(row.k) ?? 0, n: figure(row.n) ?? 0, open: figure(row.open) ?? 0, ...interval(row) };
}

function interval(row: Fields): Interval {
  return { rate: figure(row.rate), low: figure(row.low), high: figure(row.high) };
}
