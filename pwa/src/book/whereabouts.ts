/**
 * Who is where: the chicks of each lot by stage and place, and the broods that share a place. Mirrors
 * server/broodline/book/whereabouts.py, where the rule stands.
 */
import { byCodePoint } from "./code-points.ts";
import { CHICK_STAGES } from "./stages.ts";
import type { Lot, Move, Stages, Standing } from "./standing.ts";

const LIVING: readonly string[] = ["hatched", "brooding", "growing", "flock"];
const YOUNG = ["hatched", "brooding", "growing"];
const MACHINES: readonly string[] = ["incubator", "hatcher"];

/** Young of one lot in one place. place: "" where nobody wrote it. stages: how many in each, all above zero. */
export interface Brood {
  readonly lot: string;
  readonly place: string;
  readonly stages: Stages;
  readonly n: number;
}

/** Chicks of one lot: stage -> place -> how many. */
type Held = Map<string, Map<string, number>>;

/** Every lot's young by place, in order of lots and places. */
export function broods(standing: Standing): Brood[] {
  return [...standing.lots.values()].flatMap((lot) => broodsOf(standing, lot));
}

/** The young of one lot, by place. */
export function broodsOf(standing: Standing, lot: Lot): Brood[] {
  const held = heldBy(standing, lot);
  const places = new Map<string, Map<string, number>>();
  for (const stage of YOUNG) {
    for (const [place, n] of held.get(stage) ?? []) {
      if (n > 0) places.set(place, (places.get(place) ?? new Map()).set(stage, n));
    }
  }
  return [...places]
    .sort(([a], [b]) => byCodePoint(a, b))
    .map(([place, stages]) => ({
      lot: lot.id,
      place,
      stages,
      n: [...stages.values()].reduce((sum, n) => sum + n, 0),
    }));
}

function heldBy(standing: Standing, lot: Lot): Held {
  const held: Held = new Map();
  const setting = lot.setting === null ? undefined : standing.settings.get(lot.setting);
  const shell = setting?.lockedPlace ?? setting?.place ?? "";
  if (lot.came) put(held, lot.start, "", lot.n);
  for (const move of lot.moves) carry(standing, held, move, shell);
  return held;
}

function carry(standing: Standing, held: Held, move: Move, shell: string): void {
  const { source, target, n } = move;
  const place = move.place === null ? "" : (standing.rootOf.get(move.place) ?? move.place);
  if (!LIVING.includes(source)) {
    const wasChick = source === "unaccounted" || CHICK_STAGES.includes(source);
    put(held, target, place || (wasChick ? mostAt(held) : shell), n);
    return;
  }
  const stays = LIVING.includes(target);
  for (const [old, some] of take(held, source, n, stays ? "" : place, stays ? place : "")) {
    put(held, target, place || keptAt(standing, move, old), some);
  }
}

/** Where chicks are after a move that names no place. */
function keptAt(standing: Standing, { source, target }: Move, old: string): string {
  const role = standing.places.get(old)?.role;
  const isOut = source === "hatched" && target !== "hatched";
  return isOut && (role === undefined || MACHINES.includes(role)) ? "" : old;
}

function put(held: Held, stage: string, place: string, n: number): void {
  if (!LIVING.includes(stage) || n <= 0) return;
  const there = held.get(stage) ?? new Map<string, number>();
  held.set(stage, there.set(place, (there.get(place) ?? 0) + n));
}

/** Up to n out of a stage, by place. first, last: the place they leave before, or after, all others. */
function take(held: Held, stage: string, n: number, first: string, last: string): [string, number][] {
  const there = held.get(stage) ?? new Map<string, number>();
  const turn = [...there.keys()].sort(
    (a, b) =>
      Number(a !== first || first === "") - Number(b !== first || first === "") ||
      Number(last !== "" && a === last) - Number(last !== "" && b === last) ||
      (there.get(b) ?? 0) - (there.get(a) ?? 0) ||
      byCodePoint(a, b),
  );
  const taken: [string, number][] = [];
  let left = n;
  for (const place of turn) {
    const some = Math.min(left, there.get(place) ?? 0);
    if (some <= 0) continue;
    there.set(place, (there.get(place) ?? 0) - some);
    left -= some;
    taken.push([place, some]);
  }
  return left > 0 ? [...taken, ["", left]] : taken;
}

/** Where most of the chicks are. */
function mostAt(held: Held): string {
  const byPlace = new Map<string, number>();
  for (const places of held.values()) {
    for (const [place, n] of places) byPlace.set(place, (byPlace.get(place) ?? 0) + n);
  }
  const [first] = [...byPlace].sort(([a, n], [b, m]) => m - n || byCodePoint(a, b));
  return first?.[0] ?? "";
}
