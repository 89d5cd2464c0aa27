/** From trees to heads that count: taken-back ones left out, bodies read strictly, the rest reported. */
import { readBody } from "./body-check.ts";
import { byAscii } from "./code-points.ts";
import { ENVELOPE, type Entry } from "./entries.ts";
import { isKind, type Kind, VERSION } from "./kinds.ts";
import { happenedMs } from "./moments.ts";
import { type Problem, problem } from "./problems.ts";
import type { Head, Heads } from "./standing.ts";
import type { Trees } from "./trees.ts";

export interface HeadsReading {
  readonly heads: Heads;
  readonly problems: Problem[];
  readonly newer: number;
}

/**
 * What an entry says if it counts (as its own root): all that is dear to work out and never changes. more: it also
 * holds fields of a newer app.
 */
type Reading = { readonly head: Head; readonly more: boolean } | { readonly misfit: string } | "newer";

/** An entry never changes, so that it is read once and a book refolded after a tap reads one entry. */
const READINGS = new WeakMap<Entry, Reading>();

/** The heads that count, by kind and in order of identity; the problems found; how many come from a newer app. */
export function readHeads(trees: Trees): HeadsReading {
  const found: { [K in Kind]?: Head[] } = {};
  const problems: Problem[] = [];
  let newer = 0;
  for (const root of [...trees.heads.keys()].sort(byAscii)) {
    const entry = trees.heads.get(root);
    if (entry === undefined) continue;
    const was = entry.id === root ? entry.kind : (trees.byId.get(root)?.kind ?? "");
    if (entry.kind !== was) {
      problems.push(problem("kind_changed", entry.id, { was, now: entry.kind }));
      continue;
    }
    if (entry.void) continue;
    const reading = readOnce(entry);
    if (reading === "newer") {
      newer += 1;
      problems.push(problem("newer_app", entry.id));
    } else if ("misfit" in reading) {
      problems.push(problem("body", entry.id, { kind: entry.kind, field: reading.misfit }));
    } else {
      if (reading.more) problems.push(problem("newer_fields", entry.id));
      const head = reading.head.root === root ? reading.head : { ...reading.head, root };
      const alike = found[head.kind];
      if (alike === undefined) found[head.kind] = [head];
      else alike.push(head);
    }
  }
  // Each head stands under its own kind, which the type of a list filled by kind cannot say.
  return { heads: found as Heads, problems, newer };
}

/** Reads bodies beforehand, a few at a time, so that a fold of a long book finds them read. */
export function readAhead(entries: Iterable<Entry>): void {
  for (const entry of entries) readOnce(entry);
}

/** The head that an uncorrected entry is; null where something of it cannot be read or does not count. */
export function headOf(entry: Entry): Head | null {
  const reading = readOnce(entry);
  return reading === "newer" || "misfit" in reading || reading.more ? null : reading.head;
}

/** What is wrong with the trees themselves. */
export function treeProblems(trees: Trees): Problem[] {
  return [
    ...trees.clashing.map((entry) => problem("clash", entry)),
    ...trees.circular.map((entry) => problem("cycle", entry)),
    ...trees.losers.map((entry) => problem("two_corrections", entry)),
  ];
}

function readOnce(entry: Entry): Reading {
  const known = READINGS.get(entry);
  if (known !== undefined) return known;
  const reading = readEntry(entry);
  READINGS.set(entry, reading);
  return reading;
}

function readEntry(entry: Entry): Reading {
  if (entry.v > VERSION || !isKind(entry.kind)) return "newer";
  const reading = readBody(entry.kind, entry.body);
  if ("misfit" in reading) return reading;
  const atMs = happenedMs(entry.at, entry.skew_ms);
  const { id, kind, device } = entry;
  const more = reading.more || Object.keys(entry).length > ENVELOPE.length;
  return { head: { root: id, id, kind, body: reading.body, atMs, device }, more };
}
