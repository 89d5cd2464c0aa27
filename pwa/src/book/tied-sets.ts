/**
 * Of which lots together more chicks of unknown family are gone than they had: any of them may hide it in all. What it
 * rests on, and what it may miss, is said in server/broodline/book/tied_sets.py, which this mirrors over
 * tests/vectors/tied.json.
 */
import { byAscii } from "./code-points.ts";
import type { Lot, Move } from "./standing.ts";

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
    const own = lots.filter(({ id }) => some.has(id));
    if (!found.some((one) => [...one].every((lot) => some.has(lot))) && !holds(some, own, among))
      found.push(some);
  }
  return found;
}

function holds(some: ReadonlySet<string>, lots: readonly Lot[], among: readonly Move[]): boolean {
  const there = new Map<string, number>();
  const mayBring = new Map<string, number>();
  const add = (to: Map<string, number>, key: string, n: number) => to.set(key, (to.get(key) ?? 0) + n);
  for (const { stages } of lots) for (const [stage, n] of stages) add(there, stage, Math.max(0, n));
  for (const { source, target, n, among: named } of among) {
    const own = named.filter((lot) => some.has(lot)).length;
    if (own === named.length) {
      add(there, source, -n);
      add(there, target, n);
    } else if (own > 0) add(mayBring, `${source} ${target}`, n);
  }
  /** One more into a stage, from one that holds some, by moves that may have brought it. */
  const bring = (to: string, seen: Set<string>): boolean =>
    [...mayBring].some(([way, n]) => {
      const [source = "", target = ""] = way.split(" ");
      if (target !== to || n <= 0 || seen.has(source)) return false;
      seen.add(source);
      if ((there.get(source) ?? 0) > 0) add(there, source, -1);
      else if (!bring(source, seen)) return false;
      add(mayBring, way, -1);
      add(mayBring, `${target} ${source}`, 1);
      return true;
    });
  return [...there].every(([stage, n]) =>
    Array.from({ length: Math.max(0, -n) }).every(() => bring(stage, new Set([stage]))),
  );
}
