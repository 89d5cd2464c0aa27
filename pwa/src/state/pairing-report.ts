// The server's answer about next season's pens: the table of cock by hen, the proposed pens, what to compare them with.
import {
  type Fields,
  fields,
  figure,
  figures,
  problems,
  rows,
  type Told,
  text,
  texts,
} from "./answer-fields.ts";

/** What became of a batch of eggs; helped and weak are of those hatched. Expected counts where parents are not sure. */
export interface Hatched {
  readonly eggs: number;
  readonly fertile: number;
  readonly hatched: number;
  readonly helped: number;
  readonly weak: number;
}

export interface PairingBird {
  readonly bird: string;
  readonly label: string;
  readonly sex: string;
  readonly family: string | null;
  readonly meanKinship: number;
  readonly carries: readonly string[];
  readonly hatch: Hatched | null;
  readonly eggs: Hatched | null;
}

/**
 * One mating. over: chance that its chicks' inbreeding is at or over the limit; overError: how far that may be off, null
 * where it is exact. known: of both birds' forebears.
 */
export interface Mating {
  readonly sire: string;
  readonly dam: string;
  readonly inbreeding: number;
  readonly high: number;
  readonly over: number;
  readonly overError: number | null;
  readonly known: boolean;
  readonly ruledOut: boolean;
  readonly why: readonly string[];
  readonly cautions: readonly string[];
}

/**
 * family: whose chicks are hatched from it, null where its hens are of several. place: where it stands today; null for a
 * pen that is only planned. shares: bird -> part in its eggs; alike if open.
 */
export interface PairingPen {
  readonly family?: string | null;
  readonly place?: string | null;
  readonly shares?: Readonly<Record<string, number>>;
  readonly sires: readonly string[];
  readonly dams: readonly string[];
}

/** Of how many nothing is known, of all there are. */
export interface NotKnown {
  readonly n: number;
  readonly of: number;
}

/** mean: over those of which something is known, null where that is of none. */
export interface PensMean {
  readonly mean: number | null;
  readonly notKnown: NotKnown;
}

/** followed: the pens of the plan are the moves. */
export interface Rotation {
  readonly scheme: string;
  readonly followed: boolean;
  readonly moves: readonly string[];
  readonly nextYear: readonly string[];
  readonly words: string;
  readonly curve: readonly number[];
  readonly oneFlock: readonly number[];
  readonly closed: readonly number[];
  readonly rolling: readonly number[];
  readonly oneEach: string;
}

export interface PairingReport {
  readonly breed: string;
  readonly breeds: readonly string[];
  readonly limit: number;
  readonly pens: readonly PairingPen[];
  /** Of the plan, of the pens today (by hen), and of any mating at random; null where there are none. */
  readonly mean: PensMean | null;
  readonly today: readonly PairingPen[];
  readonly todayMean: PensMean | null;
  readonly random: PensMean | null;
  /** The least there is, with hens of all families mixed; null where the plan is that. */
  readonly mixed: number | null;
  readonly birds: readonly PairingBird[];
  readonly table: ReadonlyMap<string, Mating>;
  readonly rotation: Rotation;
  /** False where a better plan may be. */
  readonly proved: boolean;
  readonly relax: readonly string[];
  /** What the figures take for granted. */
  readonly notes: readonly string[];
  readonly problems: readonly Told[];
  readonly computedMs: number;
}

/** Where a mating stands in the table. */
export const pairKey = (sire: string, dam: string): string => `${sire} ${dam}`;

/** Throws TypeError where the answer is not that of matings. */
export function parsePairing(value: unknown): PairingReport {
  const report = fields(value);
  if (!Array.isArray(report.table) || !Array.isArray(report.pens))
    throw new TypeError("not a report of matings");
  const against = fields(report.compared_with);
  const notKnown = fields(report.not_known);
  const meanOf = (mean: unknown, told: unknown): PensMean | null => {
    const { n, of } = fields(told);
    return figure(of) === null
      ? null
      : { mean: figure(mean), notKnown: { n: figure(n) ?? 0, of: figure(of) ?? 0 } };
  };
  return {
    breed: text(report.breed),
    breeds: texts(report.breeds),
    limit: figure(report.limit) ?? 0,
    pens: rows(report.pens).map(pen),
    mean: meanOf(report.mean_F, notKnown.plan),
    today: rows(report.today).map(pen),
    todayMean: meanOf(against.today, notKnown.today),
    random: meanOf(against.random, notKnown.matings),
    mixed: figure(against.mixed),
    birds: rows(report.birds).map((row) => ({
      bird: text(row.bird),
      label: text(row.label),
      sex: text(row.sex),
      family: text(row.family) || null,
      meanKinship: figure(row.mean_kinship) ?? 0,
      carries: texts(row.carries),
      hatch: hatched(row.hatch),
      eggs: hatched(row.eggs),
    })),
    table: new Map(rows(report.table).map((row) => [pairKey(text(row.sire), text(row.dam)), mating(row)])),
    rotation: rotation(fields(report.rotation)),
    proved: report.proved !== false,
    relax: texts(fields(report.infeasible).relax),
    notes: texts(report.notes),
    problems: problems(report.problems),
    computedMs: Date.parse(text(report.computed_at)) || 0,
  };
}

const pen = (row: Fields): PairingPen => ({
  family: text(row.family) || null,
  place: text(row.place) || null,
  shares: figures(row.shares),
  sires: texts(row.sires),
  dams: texts(row.dams),
});

function mating(row: Fields): Mating {
  return {
    sire: text(row.sire),
    dam: text(row.dam),
    inbreeding: figure(row.F) ?? 0,
    high: figure(row.high) ?? 0,
    over: figure(row.p_over) ?? 0,
    overError: figure(row.p_over_error),
    known: row.known === true,
    ruledOut: row.ruled_out === true,
    why: texts(row.why),
    cautions: texts(row.cautions),
  };
}

function hatched(value: unknown): Hatched | null {
  if (value === null || value === undefined) return null;
  const row = fields(value);
  return {
    eggs: figure(row.eggs) ?? 0,
    fertile: figure(row.fertile) ?? 0,
    hatched: figure(row.hatched) ?? 0,
    helped: figure(row.helped) ?? 0,
    weak: figure(row.weak) ?? 0,
  };
}

function rotation(row: Fields): Rotation {
  const curve = (value: unknown) => (Array.isArray(value) ? value.map((one) => figure(one) ?? 0) : []);
  return {
    scheme: text(row.scheme),
    followed: row.followed === true,
    moves: texts(row.moves),
    nextYear: texts(row.next_year),
    words: text(row.words),
    curve: curve(row.forecast),
    oneFlock: curve(row.forecast_one_flock),
    closed: curve(row.forecast_closed),
    rolling: curve(row.forecast_rolling),
    oneEach: text(fields(row.one_each).words),
  };
}
