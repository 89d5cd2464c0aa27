/**
 * Moves and looks added up: for each lot how many are in each stage, for each setting its totals. Addition only, so
 * the result depends on no order. Moves outside the table and counts below zero are kept and reported.
 */
import { byAscii, byCodePoint, sortedKeys } from "./code-points.ts";
import { type Founding, unfounded } from "./founding.ts";
import { DAY_MS } from "./moments.ts";
import { CHICK_STAGES, MISSING } from "./stages.ts";
import type { Head, Look, Lot, Move, Stages } from "./standing.ts";

const CHICKS = new Set(CHICK_STAGES);

/** What is being added up for one lot. */
export interface Account {
  readonly founding: Founding;
  readonly stages: Map<string, number>;
  readonly open: Map<string, number>;
  readonly moves: Move[];
  readonly looks: Look[];
  lostFromSight: number;
}

/** Every single move of the `moved` entries. */
export function movesOf(heads: readonly Head<"moved">[]): Move[] {
  return heads.flatMap(({ id, atMs, body }) =>
    body.moves.map((move) => ({
      entry: id,
      atMs,
      lot: move.lot ?? null,
      among: move.lot ? [] : [...new Set(move.among ?? [])].sort(byCodePoint),
      source: move.from,
      target: move.to,
      n: move.n,
      why: body.why ?? null,
      day: body.day ?? null,
      cause: body.cause ?? null,
      place: body.place ?? null,
      helped: body.helped ?? false,
      weak: body.weak ?? false,
    })),
  );
}

/** The lots a move names, one or several. */
export function namedBy(move: Move): readonly string[] {
  return move.lot === null ? move.among : [move.lot];
}

/** An account for every lot that was founded or that a move names. */
export function openAccounts(
  foundings: ReadonlyMap<string, Founding>,
  moves: readonly Move[],
): ReadonlyMap<string, Account> {
  const accounts = new Map<string, Account>();
  for (const [lot, founding] of foundings) accounts.set(lot, openAccount(founding));
  for (const move of moves) {
    for (const lot of namedBy(move)) if (!accounts.has(lot)) accounts.set(lot, openAccount(unfounded(lot)));
  }
  return accounts;
}

/**
 * Enters moves of a known lot in its account and gives those among several lots of one setting, by setting. A move
 * among lots of several settings, or of none, is entered nowhere.
 */
export function enterMoves(
  accounts: ReadonlyMap<string, Account>,
  moves: readonly Move[],
): ReadonlyMap<string, Move[]> {
  const among = new Map<string, Move[]>();
  for (const move of moves) {
    if (move.lot !== null) {
      enterMove(accounts.get(move.lot), move);
      continue;
    }
    const setting = settingOf(accounts, move);
    if (setting === null) continue;
    const sofar = among.get(setting);
    if (sofar === undefined) among.set(setting, [move]);
    else sofar.push(move);
    if (move.source === move.target) continue;
    for (const lot of move.among) {
      const account = accounts.get(lot);
      if (account !== undefined) add(account.open, move.target, move.n);
    }
  }
  return among;
}

/** Enters looks in their lots' accounts; gives the looks whose lot stands in no setting. */
export function enterLooks(
  accounts: ReadonlyMap<string, Account>,
  heads: readonly Head<"looked">[],
  setAtMs: ReadonlyMap<string, number>,
): Head<"looked">[] {
  const astray: Head<"looked">[] = [];
  for (const head of heads) {
    const account = accounts.get(head.body.lot);
    const begin = setAtMs.get(account?.founding.setting ?? "");
    if (account === undefined || begin === undefined) {
      astray.push(head);
      continue;
    }
    account.looks.push(lookOf(head, begin));
  }
  return astray;
}

/** What was seen, in numbers; without a day written the days since the eggs were set. */
export function lookOf({ id, atMs, body }: Head<"looked">, setAtMs: number): Look {
  return {
    entry: id,
    atMs,
    lot: body.lot,
    what: body.what,
    day: body.day ?? Math.max(0, Math.floor((atMs - setAtMs) / DAY_MS)),
    live: body.live ?? 0,
    unsure: body.unsure ?? 0,
    pipped: body.pipped ?? 0,
    none: body.none ?? false,
  };
}

/** The lot as it now stands. */
export function closeAccount(account: Account): Lot {
  const { founding, stages, open, moves, looks, lostFromSight } = account;
  const { lot, ...begun } = founding;
  return {
    id: lot,
    ...begun,
    stages: withoutZeros(stages),
    open: withoutZeros(open),
    moves: inTime(moves),
    looks: inTime(looks),
    missing: Math.max(0, Math.min(lostFromSight, stages.get(MISSING) ?? 0)),
  };
}

/** A setting's totals: its lots added up, and what was moved among them. */
export function totals(lots: readonly Lot[], among: readonly Move[]): Stages {
  const stages = new Map<string, number>();
  for (const lot of lots) for (const [stage, n] of lot.stages) add(stages, stage, n);
  for (const move of among) transfer(stages, move);
  return withoutZeros(stages);
}

/** In order of time, then of entry; moves of one entry keep their order. */
export function inTime<T extends { readonly atMs: number; readonly entry: string }>(
  events: readonly T[],
): T[] {
  return [...events].sort((a, b) => a.atMs - b.atMs || byAscii(a.entry, b.entry));
}

function openAccount(founding: Founding): Account {
  const stages = new Map([[founding.start, founding.n]]);
  return { founding, stages, open: new Map(), moves: [], looks: [], lostFromSight: 0 };
}

function enterMove(account: Account | undefined, move: Move): void {
  if (account === undefined) return;
  account.moves.push(move);
  transfer(account.stages, move);
  account.lostFromSight += outOfSight(move);
}

/** The one setting that all lots of a move among several stand in, or null. */
function settingOf(accounts: ReadonlyMap<string, Account>, move: Move): string | null {
  const [first, ...others] = move.among.map((lot) => accounts.get(lot)?.founding.setting ?? null);
  return first !== undefined && others.every((setting) => setting === first) ? first : null;
}

function transfer(stages: Map<string, number>, { source, target, n }: Move): void {
  add(stages, source, -n);
  add(stages, target, n);
}

function add(stages: Map<string, number>, stage: string, n: number): void {
  stages.set(stage, (stages.get(stage) ?? 0) + n);
}

function withoutZeros(stages: Stages): Stages {
  const kept = new Map<string, number>();
  for (const stage of sortedKeys(stages)) {
    const n = stages.get(stage) ?? 0;
    if (n !== 0) kept.set(stage, n);
  }
  return kept;
}

function outOfSight({ source, target, n }: Move): number {
  if (CHICKS.has(source) && target === MISSING) return n;
  return source === MISSING && CHICKS.has(target) ? -n : 0;
}
