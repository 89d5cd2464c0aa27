/**
 * What to mind where chicks of several batches share a place: marks that do not tell them apart, and ages a week or
 * more apart. Mirrors server/broodline/book/together.py over tests/vectors/together.json. Said, never blocked.
 */
import { hatchedMs, wholeDays } from "./hatch-day.ts";
import { unmarked } from "./marks.ts";
import type { Standing } from "./standing.ts";

const APART_DAYS = 7;

/** Pairs of these batches whose marks do not tell them apart: alike, or not all chicks of one of the two are marked. */
export function alikePairs(standing: Standing, lots: readonly string[]): [one: string, other: string][] {
  const marks = new Map(
    lots.map((lot) => [lot, isMissed(standing, lot) ? new Set<string>() : marksOf(standing, lot)]),
  );
  return lots.flatMap((one, at) =>
    lots.slice(at + 1).flatMap((other): [string, string][] => {
      const mine = marks.get(one) ?? new Set();
      const theirs = marks.get(other) ?? new Set();
      const isClear = mine.size > 0 && theirs.size > 0 && ![...mine].some((mark) => theirs.has(mark));
      return isClear ? [] : [[one, other]];
    }),
  );
}

/** Whether a chick of the batch lives that nobody marked: it may be taken for one of any batch. */
function isMissed({ lots, heads }: Standing, name: string): boolean {
  const lot = lots.get(name);
  return lot !== undefined && unmarked(lot, heads) > 0;
}

/** Whether some of these batches hatched a week or more before others. A batch of unknown age says nothing. */
export function agesApart(standing: Standing, lots: readonly string[], nowMs: number): boolean {
  const ages = lots.flatMap((name) => {
    const lot = standing.lots.get(name);
    const born = lot === undefined ? null : hatchedMs(standing, lot);
    return born === null ? [] : [wholeDays(born, nowMs)];
  });
  return ages.length > 0 && Math.max(...ages) - Math.min(...ages) >= APART_DAYS;
}

/**
 * How chicks of a batch are told from others: webs, and rings and tags by kind, colour, leg and text. A mark that
 * another one replaced is worn no more.
 */
function marksOf({ heads, rootOf }: Standing, lot: string): ReadonlySet<string> {
  const found = new Set<string>();
  const gone = new Set(
    (heads.marked ?? []).map(({ body: { replaces } }) => replaces && (rootOf.get(replaces) ?? replaces)),
  );
  for (const { root, body } of heads.marked ?? []) {
    if (body.lot !== lot || gone.has(root)) continue;
    if (body.webs?.length) found.add(JSON.stringify(["webs", ...[...body.webs].sort()]));
    const { tag } = body;
    if (tag) found.add(JSON.stringify([tag.kind, tag.colour ?? "", tag.leg ?? "", tag.text ?? ""]));
  }
  return found;
}
