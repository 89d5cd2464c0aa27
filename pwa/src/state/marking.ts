import type { Entry } from "../book/entries.ts";
import type { Mark } from "../book/marks-of-lots.ts";
import type { Pattern } from "../trade/marks.ts";
import { record } from "./actions.ts";
import { type Draft, write } from "./recording.ts";

/** The verbs of a later look at marks: what was found, each pattern and ring by itself, one look saved whole. */

/** The webs of all patterns of a lot were seen open. */
export function websOpen(lot: string, patterns: readonly Pattern[]): Promise<Entry[]> {
  return write(
    patterns.map((webs): Draft => ({ kind: "marked", body: { lot, webs: [...webs], recheck: true } })),
  );
}

/** n chicks of one pattern whose holes had closed were punched again. */
export function websPunchedAgain(lot: string, webs: Pattern, n: number): Promise<Entry> {
  return record("marked", { lot, webs: [...webs], n, recheck: true });
}

/** Rings changed for larger ones that look the same: each mark of the old ones is replaced, for as many chicks. */
export function ringsChanged(lot: string, marks: readonly Mark[]): Promise<Entry[]> {
  return write(
    marks.map(({ entry, tag, n }): Draft => ({ kind: "marked", body: { lot, tag, n, replaces: entry } })),
  );
}
