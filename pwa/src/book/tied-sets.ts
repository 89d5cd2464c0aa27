/**
 * Of which lots together more chicks of unknown family are gone than they had: any of them may hide it in all. What it
 * rests on, and what it may miss, is said in server/broodline/book/tied_sets.py, which this mirrors over
 * tests/vectors/tied.json.
 */
import { byAscii } from "./code-points.ts";
import type { Lot, Move, Stages } from "./standing.ts";

/** The smallest sets of lots that cannot be, the smaller first, by their ids. What is below zero counts as none. */
export function overdrawn(lots: readonly Lot[], among: readonly Move[]): ReadonlySet<string>[] {
  const sets = new Map<string, readonly string[]>();
  const add = (...named: string[]) => {
    const ids = [...new Set(named)].sort(byAscii);
    sets.set(ids.join(), ids);
  };
  for (const move of among) add(...move.among);
  for (const one of sets.values())
    for (const other of [...sets.values()]) if (other.some((lot) => one.includes(lot))) add(...one, ...other);
  const found: ReadonlySet<string>[] = [];
  const inOrder = [...sets].sort(([a, one], [b, other]) => one.length - other.length || byAscii(a, b));
  for (const [, ids] of inOrder) {
    const some = new Set(ids);
    const there = lots.filter(({ id }) => some.has(id)).map(({ stages }) => stages);
    if (!found.some((one) => [...one].every((lot) => some.has(lot))) && !holds(some, there, among))
      found.push(some);
  }
  return found;
}

type Way = readonly [string, string];

function holds(some: ReadonlySet<string>, stages: readonly Stages[], among: readonly Move[]): boolean {
  const there = new Map<string, number>();
  const put = (stage: string, n: number) => there.set(stage, (there.get(stage) ?? 0) + n);
  for (const one of stages) for (const [stage, n] of one) put(stage, Math.max(0, n));
  const mayBring = new Map<string, { way: Way; n: number }>();
  const bring = (way: Way, n: number) =>
    mayBring.set(way.join(), { way, n: (mayBring.get(way.join())?.n ?? 0) + n });
  for (const { source, target, n, among: named } of among) {
    if (named.every((lot) => some.has(lot))) {
      put(source, -n);
      put(target, n);
    } else if (named.some((lot) => some.has(lot))) bring([source, target], n);
  }
  /** The moves, last first, by which one more may have come to a stage from one that holds some. */
  const pathTo = (to: string): readonly Way[] => {
    const ways = new Map<string, readonly Way[]>([[to, []]]);
    for (const [stage, path] of ways) {
      for (const { way, n } of mayBring.values()) {
        const [source] = way;
        if (way[1] !== stage || n <= 0 || ways.has(source)) continue;
        const longer = [...path, way];
        if ((there.get(source) ?? 0) > 0) return longer;
        ways.set(source, longer);
      }
    }
    return [];
  };
  for (;;) {
    const lacking = [...there].find(([, n]) => n < 0)?.[0];
    if (lacking === undefined) return true;
    const path = pathTo(lacking);
    const [from] = path.at(-1) ?? [];
    if (from === undefined) return false;
    for (const [source, target] of path) {
      bring([source, target], -1);
      bring([target, source], 1);
    }
    put(from, -1);
    put(lacking, 1);
  }
}
