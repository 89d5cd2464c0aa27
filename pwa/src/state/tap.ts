import type { LotMove } from "../book/bodies.generated.ts";
import { readBody } from "../book/body-check.ts";
import { sortedKeys } from "../book/code-points.ts";
import type { Entry } from "../book/entries.ts";
import { VERSION } from "../book/kinds.ts";
import { DAY_MS, happenedMs } from "../book/moments.ts";
import { inTime } from "../book/moves.ts";
import { MISSING, mayMove } from "../book/stages.ts";
import type { Head, Heads, Lot, Move, Setting, Stages, Standing } from "../book/standing.ts";

/**
 * A tap of the tally, or its undo, worked into a standing without folding the whole book again, so that it shows in
 * the same frame in a book of any size. Only for the plain case, in which the fold would change one lot and its
 * setting and find the same problems; for anything else null, and the caller folds. `entry` must be new to the book
 * and nothing may amend it yet. Tests hold the outcome equal to the fold's.
 */
export function withTap(standing: Standing, entry: Entry): Standing | null {
  if (entry.v !== VERSION) return null;
  if (entry.kind === "looked") return entry.void ? withoutLook(standing, entry) : withLook(standing, entry);
  if (entry.kind === "moved") return entry.void ? withoutMoves(standing, entry) : withMoves(standing, entry);
  return null;
}

function withLook(standing: Standing, entry: Entry): Standing | null {
  const head = entry.amends === null ? headOf(entry, "looked") : null;
  if (!head) return null;
  const { body, atMs } = head;
  const place = placeOf(standing, body.lot);
  if (!place || (standing.rootOf.get(body.setting) ?? body.setting) !== place.setting.id) return null;
  const look = {
    entry: entry.id,
    atMs,
    lot: body.lot,
    what: body.what,
    day: body.day ?? Math.max(0, Math.floor((atMs - place.setting.setAtMs) / DAY_MS)),
    live: body.live ?? 0,
    unsure: body.unsure ?? 0,
    pipped: body.pipped ?? 0,
    none: body.none ?? false,
  };
  const lot: Lot = { ...place.lot, looks: inTime([...place.lot.looks, look]) };
  const heads = { ...standing.heads, looked: inserted(standing.heads.looked, head) };
  const rootOf = rooted(standing, entry, entry.id);
  return { ...standing, heads, rootOf, lots: replaced(standing.lots, lot) };
}

function withoutLook(standing: Standing, entry: Entry): Standing | null {
  const head = takenBack(standing, standing.heads.looked, entry);
  const place = head && placeOf(standing, head.body.lot);
  if (!place) return null;
  const lot: Lot = { ...place.lot, looks: place.lot.looks.filter((look) => look.entry !== head.id) };
  const heads = headsWithout(standing, "looked", head.id);
  const rootOf = rooted(standing, entry, head.root);
  return { ...standing, heads, rootOf, lots: replaced(standing.lots, lot) };
}

function withMoves(standing: Standing, entry: Entry): Standing | null {
  const head = entry.amends === null ? headOf(entry, "moved") : null;
  if (!head) return null;
  const { body, atMs } = head;
  if (body.settles || (body.place && !standing.places.has(standing.rootOf.get(body.place) ?? body.place)))
    return null;
  const changed = accounts(standing, body.moves, 1);
  if (!changed || atMs < changed.setting.setAtMs - DAY_MS) return null;
  const moves = body.moves.map(({ from, to, n }): Move => {
    return {
      entry: entry.id,
      atMs,
      lot: changed.lot.id,
      among: [],
      source: from,
      target: to,
      n,
      why: body.why ?? null,
      day: body.day ?? null,
      cause: body.cause ?? null,
      place: body.place ?? null,
      helped: body.helped ?? false,
      weak: body.weak ?? false,
    };
  });
  const lot: Lot = { ...changed.lot, moves: inTime([...changed.lot.moves, ...moves]) };
  return {
    ...standing,
    heads: { ...standing.heads, moved: inserted(standing.heads.moved, head) },
    rootOf: rooted(standing, entry, entry.id),
    lots: replaced(standing.lots, lot),
    settings: replaced(standing.settings, changed.setting),
  };
}

function withoutMoves(standing: Standing, entry: Entry): Standing | null {
  const head = takenBack(standing, standing.heads.moved, entry);
  if (!head || head.body.settles) return null;
  const changed = accounts(standing, head.body.moves, -1);
  if (!changed) return null;
  const lot: Lot = { ...changed.lot, moves: changed.lot.moves.filter((move) => move.entry !== head.id) };
  return {
    ...standing,
    heads: headsWithout(standing, "moved", head.id),
    rootOf: rooted(standing, entry, head.root),
    lots: replaced(standing.lots, lot),
    settings: replaced(standing.settings, changed.setting),
  };
}

/** Moves of one lot entered (sign 1) or taken out (-1) of its account and its setting's; null in any odd case. */
function accounts(
  standing: Standing,
  moves: readonly LotMove[],
  sign: 1 | -1,
): { lot: Lot; setting: Setting } | null {
  const name = moves[0]?.lot ?? "";
  const place = placeOf(standing, name);
  if (!place) return null;
  let stages = place.lot.stages;
  let totals = place.setting.stages;
  for (const { lot, from, to, n } of moves) {
    // What went missing is counted beside the stages, and only the fold knows how much of it was seen before.
    if (lot !== name || !mayMove(from, to) || from === MISSING || to === MISSING) return null;
    stages = moved(stages, from, to, sign * n);
    totals = moved(totals, from, to, sign * n);
  }
  if (isBelowZero(stages) || isBelowZero(totals)) return null;
  return { lot: { ...place.lot, stages }, setting: { ...place.setting, stages: totals } };
}

/** The head that a void takes back, where it stands uncorrected and no problem is about it. */
function takenBack<K extends "looked" | "moved">(
  standing: Standing,
  heads: readonly Head<K>[] | undefined,
  entry: Entry,
): Head<K> | undefined {
  // From the end: what is taken back is nearly always what was tapped last.
  const head = heads?.[lastIndex(heads, (one) => one.id === entry.amends)];
  if (!head || head.root !== head.id || standing.problems.some((one) => one.entry === head.id))
    return undefined;
  return head;
}

function headOf<K extends "looked" | "moved">(entry: Entry, kind: K): Head<K> | null {
  const reading = readBody(kind, entry.body);
  if ("misfit" in reading || reading.more) return null;
  const atMs = happenedMs(entry.at, entry.skew_ms);
  return { root: entry.id, id: entry.id, kind, body: reading.body, atMs, device: entry.device };
}

/** Heads stand in order of identity; a new one belongs at the end, unless another phone's clock runs ahead. */
function inserted<K extends "looked" | "moved">(heads: readonly Head<K>[] = [], head: Head<K>): Head<K>[] {
  const before = lastIndex(heads, (one) => one.root < head.root) + 1;
  return [...heads.slice(0, before), head, ...heads.slice(before)];
}

/** A kind without heads is not named at all. */
function headsWithout(standing: Standing, kind: "looked" | "moved", id: string): Heads {
  const { [kind]: alike, ...others } = standing.heads;
  const left = alike?.filter((head: Head) => head.id !== id) ?? [];
  return left.length > 0 ? { ...others, [kind]: left } : others;
}

/** A lot in its setting; null where the lot stands in none, or where either does not add up already. */
function placeOf(standing: Standing, name: string): { lot: Lot; setting: Setting } | null {
  const lot = standing.lots.get(name);
  const setting = standing.settings.get(lot?.setting ?? "");
  if (!lot || !setting || isBelowZero(lot.stages) || isBelowZero(setting.stages)) return null;
  return { lot, setting };
}

function isBelowZero(stages: Stages): boolean {
  for (const n of stages.values()) if (n < 0) return true;
  return false;
}

function moved(stages: Stages, from: string, to: string, n: number): Stages {
  const next = new Map(stages);
  next.set(from, (next.get(from) ?? 0) - n);
  next.set(to, (next.get(to) ?? 0) + n);
  const kept = new Map<string, number>();
  for (const stage of sortedKeys(next)) {
    const left = next.get(stage) ?? 0;
    if (left !== 0) kept.set(stage, left);
  }
  return kept;
}

function rooted(standing: Standing, entry: Entry, root: string): ReadonlyMap<string, string> {
  return new Map(standing.rootOf).set(entry.id, root);
}

function replaced<T extends { readonly id: string }>(
  all: ReadonlyMap<string, T>,
  one: T,
): ReadonlyMap<string, T> {
  return new Map(all).set(one.id, one);
}

function lastIndex<T>(list: readonly T[], fits: (one: T) => boolean): number {
  for (let i = list.length - 1; i >= 0; i -= 1) if (fits(list[i] as T)) return i;
  return -1;
}
