import type { LotMove } from "../book/bodies.generated.ts";
import { sortedKeys } from "../book/code-points.ts";
import type { Entry } from "../book/entries.ts";
import { headOf } from "../book/heads.ts";
import { isKind, type Kind } from "../book/kinds.ts";
import { DAY_MS } from "../book/moments.ts";
import { inTime, lookOf, movesOf } from "../book/moves.ts";
import { namesAreKnown } from "../book/names.ts";
import { MISSING, mayMove } from "../book/stages.ts";
import type { Head, Heads, Lot, Setting, Stages, Standing } from "../book/standing.ts";
import type { LaterMap } from "./later-map.ts";

/** Kinds that the fold reads for more than their own sake: what they say may change lots, names and problems. */
const WOVEN: ReadonlySet<Kind> = new Set<Kind>([
  ...(["keeper", "place", "family", "bird", "same"] as const),
  ...(["set", "came", "looked", "moved", "counted", "locked"] as const),
]);

/**
 * A tap of the tally or its undo, or a reading of the air and the like, worked into a standing without folding the whole
 * book again, so that it shows in the same frame in a book of any size. Only for the plain case, in which the fold
 * would change at most one lot and its setting and find the same problems; for anything else null, and the caller
 * folds. `entry` must be new to the book. Tests hold the outcome equal to the fold's.
 */
export function withTap(standing: Standing, entry: Entry): Standing | null {
  if (standing.awaited.has(entry.id)) return null;
  if (entry.kind === "looked") return entry.void ? withoutLook(standing, entry) : withLook(standing, entry);
  if (entry.kind === "moved") return entry.void ? withoutMoves(standing, entry) : withMoves(standing, entry);
  if (entry.void || !isKind(entry.kind) || WOVEN.has(entry.kind)) return null;
  return withWord(standing, entry, entry.kind);
}

/** A head that changes nothing but the list of its kind. */
function withWord(standing: Standing, entry: Entry, kind: Kind): Standing | null {
  const head = newHead(entry, kind);
  if (!head || !namesAreKnown(head, standing)) return null;
  return { ...standing, heads: { ...standing.heads, [kind]: inserted(standing.heads[kind], head) } };
}

function withLook(standing: Standing, entry: Entry): Standing | null {
  const head = newHead(entry, "looked");
  if (!head) return null;
  const { body } = head;
  const place = placeOf(standing, body.lot);
  if (!place || (standing.rootOf.get(body.setting) ?? body.setting) !== place.setting.id) return null;
  const look = lookOf(head, place.setting.setAtMs);
  const lot: Lot = { ...place.lot, looks: inTime([...place.lot.looks, look]) };
  const heads = { ...standing.heads, looked: inserted(standing.heads.looked, head) };
  return { ...standing, heads, lots: replaced(standing.lots, lot) };
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
  const head = newHead(entry, "moved");
  if (!head) return null;
  const { body, atMs } = head;
  if (body.settles || (body.place && !standing.places.has(standing.rootOf.get(body.place) ?? body.place)))
    return null;
  const changed = accounts(standing, body.moves, 1);
  if (!changed || atMs < changed.setting.setAtMs - DAY_MS) return null;
  const lot: Lot = { ...changed.lot, moves: inTime([...changed.lot.moves, ...movesOf([head])]) };
  return {
    ...standing,
    heads: { ...standing.heads, moved: inserted(standing.heads.moved, head) },
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
  if (!place || isMarkedHatch(standing, place.setting)) return null;
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

/** Whether chicks of a setting are marked: which of them are not is told anew by the fold after every move. */
function isMarkedHatch({ heads }: Standing, { lots }: Setting): boolean {
  return heads.marked?.some(({ body }) => lots.includes(body.lot ?? "")) ?? false;
}

/** The head that a void takes back, where it stands uncorrected and no problem is about it. */
function takenBack<K extends Kind>(
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

function newHead<K extends Kind>(entry: Entry, kind: K): Head<K> | null {
  return entry.amends === null && entry.kind === kind ? (headOf(entry) as Head<K> | null) : null;
}

/** Heads stand in order of identity; a new one belongs at the end, unless another phone's clock runs ahead. */
function inserted<K extends Kind>(heads: readonly Head<K>[] = [], head: Head<K>): Head<K>[] {
  const before = lastIndex(heads, (one) => one.root < head.root) + 1;
  return [...heads.slice(0, before), head, ...heads.slice(before)];
}

/** A kind without heads is not named at all. */
function headsWithout(standing: Standing, kind: Kind, id: string): Heads {
  const { [kind]: alike, ...others } = standing.heads;
  const left = (alike as readonly Head[] | undefined)?.filter((head) => head.id !== id) ?? [];
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

/** Most ids are their own identity and are not named here. */
function rooted(standing: Standing, entry: Entry, root: string): ReadonlyMap<string, string> {
  return new Map(standing.rootOf).set(entry.id, root);
}

function replaced<T extends { readonly id: string }>(
  all: ReadonlyMap<string, T>,
  one: T,
): ReadonlyMap<string, T> {
  return isLater(all) ? all.with(one.id, one) : new Map(all).set(one.id, one);
}

function isLater<T>(all: ReadonlyMap<string, T> | LaterMap<T>): all is LaterMap<T> {
  return "with" in all;
}

function lastIndex<T>(list: readonly T[], fits: (one: T) => boolean): number {
  for (let i = list.length - 1; i >= 0; i -= 1) if (fits(list[i] as T)) return i;
  return -1;
}
