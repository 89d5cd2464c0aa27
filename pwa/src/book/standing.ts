/**
 * What the book adds up to: the result of a fold, and its form for comparing two folds. Mirrors
 * server/broodline/book/standing.py. Times are whole milliseconds since 1970, UTC, by the phone's clock set right
 * where its skew is known.
 */
import type { Bodies } from "./bodies.generated.ts";
import type { Kind } from "./kinds.ts";
import type { Problem } from "./problems.ts";

/** An entry that counts: its tree's root (the identity), its own id, its body, and when it happened. */
export interface Head<K extends Kind = Kind> {
  readonly root: string;
  readonly id: string;
  readonly kind: K;
  readonly body: Readonly<Bodies[K]>;
  readonly atMs: number;
  readonly device: string;
}

/** The heads that count, by kind and in order of identity. */
export type Heads = { readonly [K in Kind]?: readonly Head<K>[] };

/** Stage -> how many; a stage that holds nothing is left out. */
export type Stages = ReadonlyMap<string, number>;

/** n eggs or chicks from one stage to another; `among` names the lots where it is not known which. */
export interface Move {
  readonly entry: string;
  readonly atMs: number;
  readonly lot: string | null;
  readonly among: readonly string[];
  readonly source: string;
  readonly target: string;
  readonly n: number;
  readonly why: (Bodies["moved"]["why"] & string) | null;
  readonly day: number | null;
  readonly cause: string | null;
  readonly place: string | null;
  readonly helped: boolean;
  readonly weak: boolean;
}

/** What was seen of a lot at one look. */
export interface Look {
  readonly entry: string;
  readonly atMs: number;
  readonly lot: string;
  readonly what: "candled" | "hatch";
  readonly day: number;
  readonly live: number;
  readonly unsure: number;
  readonly pipped: number;
  readonly none: boolean;
}

/** Looks of one day added up. */
export interface Seen {
  readonly live: number;
  readonly unsure: number;
  readonly pipped: number;
}

/**
 * So many eggs of one family in one setting, or chicks that came as a lot (setting null, `came` true). stages: how
 * many are in each stage now (below zero is kept). open: up to how many more, from moves among several lots.
 * missing: chicks that were lost from sight and not found.
 */
export interface Lot {
  readonly id: string;
  readonly setting: string | null;
  readonly family: string | null;
  readonly n: number;
  readonly start: string;
  readonly came: boolean;
  readonly laidFrom: string | null;
  readonly laidTo: string | null;
  readonly boughtIn: boolean;
  readonly sign: string | null;
  readonly stages: Stages;
  readonly open: Stages;
  readonly moves: readonly Move[];
  readonly looks: readonly Look[];
  readonly missing: number;
}

/** Eggs put into one place at one time. stages: the totals of its lots with what was moved among them. */
export interface Setting {
  readonly id: string;
  readonly place: string;
  readonly species: string;
  readonly setAtMs: number;
  readonly lots: readonly string[];
  readonly lockdownDay: number | null;
  readonly note: string | null;
  readonly lockedAtMs: number | null;
  readonly lockedPlace: string | null;
  readonly stages: Stages;
  readonly among: readonly Move[];
}

/**
 * The whole book, added up. rootOf: the identity behind each id that is not its own, as of corrections. awaited: ids
 * that corrections name and the book does not hold. newer: how many entries come from a newer app and were not read.
 */
export interface Standing {
  readonly keeper: Readonly<Bodies["keeper"]>;
  readonly families: ReadonlyMap<string, Readonly<Bodies["family"]>>;
  readonly places: ReadonlyMap<string, Readonly<Bodies["place"]>>;
  readonly settings: ReadonlyMap<string, Setting>;
  readonly lots: ReadonlyMap<string, Lot>;
  readonly heads: Heads;
  readonly rootOf: ReadonlyMap<string, string>;
  readonly sameBird: ReadonlyMap<string, string>;
  readonly problems: readonly Problem[];
  readonly awaited: ReadonlySet<string>;
  readonly newer: number;
}

/** How many are in a stage now. */
export function inStage(of: { readonly stages: Stages }, stage: string): number {
  return of.stages.get(stage) ?? 0;
}

/** True while an egg is in set or locked. */
export function runs(setting: Setting): boolean {
  return inStage(setting, "set") > 0 || inStage(setting, "locked") > 0;
}

/** Looks of one sort added up by day. */
export function seenByDay(lot: Lot, what: Look["what"]): ReadonlyMap<number, Seen> {
  const days = new Map<number, Seen>();
  for (const look of lot.looks) {
    if (look.what !== what) continue;
    const sofar = days.get(look.day) ?? { live: 0, unsure: 0, pipped: 0 };
    days.set(look.day, {
      live: sofar.live + look.live,
      unsure: sofar.unsure + look.unsure,
      pipped: sofar.pipped + look.pipped,
    });
  }
  return days;
}

/** The standing as plain JSON, equal in Python and TypeScript for the same set of entries. */
export function standingJson(standing: Standing): Record<string, unknown> {
  return {
    keeper: standing.keeper,
    families: Object.fromEntries(standing.families),
    places: Object.fromEntries(standing.places),
    settings: Object.fromEntries(
      [...standing.settings].map(([name, setting]) => [name, settingJson(setting)]),
    ),
    lots: Object.fromEntries([...standing.lots].map(([name, lot]) => [name, lotJson(lot)])),
    heads: Object.fromEntries(Object.entries(standing.heads).map(([kind, heads]) => [kind, heads.map(idOf)])),
    same_bird: Object.fromEntries(standing.sameBird),
    problems: standing.problems,
    newer: standing.newer,
  };
}

function settingJson(setting: Setting): Record<string, unknown> {
  return {
    place: setting.place,
    species: setting.species,
    set_at_ms: setting.setAtMs,
    lots: setting.lots,
    lockdown_day: setting.lockdownDay,
    locked_at_ms: setting.lockedAtMs,
    locked_place: setting.lockedPlace,
    stages: Object.fromEntries(setting.stages),
    among: setting.among.map(entryOf),
  };
}

function lotJson(lot: Lot): Record<string, unknown> {
  return {
    setting: lot.setting,
    family: lot.family,
    n: lot.n,
    start: lot.start,
    came: lot.came,
    sign: lot.sign,
    stages: Object.fromEntries(lot.stages),
    open: Object.fromEntries(lot.open),
    missing: lot.missing,
    moves: lot.moves.map(entryOf),
    candled: daysJson(seenByDay(lot, "candled")),
    hatch: daysJson(seenByDay(lot, "hatch")),
  };
}

function daysJson(days: ReadonlyMap<number, Seen>): Record<string, unknown> {
  return Object.fromEntries(
    [...days].map(([day, { live, unsure, pipped }]) => [String(day), [live, unsure, pipped]]),
  );
}

function idOf(head: { readonly id: string }): string {
  return head.id;
}

function entryOf(move: Move): string {
  return move.entry;
}
