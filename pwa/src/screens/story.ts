// The book as lines to read: entries in order of when they happened, taps of one tally drawn together. Pure.

import type { Entry } from "../book/entries.ts";
import { happenedMs } from "../book/moments.ts";
import type { Standing } from "../book/standing.ts";
import { addUp, type Part, partsIn } from "./told-entry.ts";
import { headingOf, settingIn } from "./told-heading.ts";

const TOGETHER_MS = 30 * 60_000;

/** What stands of an entry now: the entry that counts, and how it came to that. */
export interface Told {
  /** The founding entry's id. */
  readonly root: string;
  /** What is shown: the head of its corrections. */
  readonly entry: Entry;
  readonly at_ms: number;
  readonly changed: boolean;
  readonly back: boolean;
}

export interface StoryLine {
  readonly heading: string;
  readonly at_ms: number;
  readonly told: readonly Told[];
  /** "Rowan 8 live, 1 clear" for each family. */
  readonly parts: readonly string[];
  readonly setting: string | null;
}

/** One line for each founding entry, with the correction that stands. */
export function tellEntries(entries: readonly Entry[], rootOf: ReadonlyMap<string, string>): Told[] {
  const trees = new Map<string, Entry[]>();
  for (const entry of entries) {
    const root = rootOf.get(entry.id) ?? entry.id;
    const tree = trees.get(root);
    if (tree) tree.push(entry);
    else trees.set(root, [entry]);
  }
  return [...trees].map(([root, tree]) => {
    const entry = headOf(root, tree);
    return {
      root,
      entry,
      at_ms: happenedMs(entry.at, entry.skew_ms),
      changed: tree.length > 1 && !entry.void,
      back: entry.void,
    };
  });
}

/** From the root to the greatest child at each fork, as the book itself counts. */
function headOf(root: string, tree: readonly Entry[]): Entry {
  let head = tree.find((entry) => entry.id === root) ?? (tree[0] as Entry);
  const passed = new Set<string>();
  for (;;) {
    passed.add(head.id);
    const next = tree.filter((entry) => entry.amends === head.id && !passed.has(entry.id));
    if (next.length === 0) return head;
    head = next.reduce((a, b) => (b.id > a.id ? b : a));
  }
}

const isTap = (entry: Entry) => entry.kind === "looked" || entry.kind === "moved";

/** Newest first. Taps with one heading, less than half an hour apart, are one line. */
export function storyLines(list: readonly Told[], totals: Standing): StoryLine[] {
  const sorted = [...list].sort((a, b) => a.at_ms - b.at_ms || (a.root < b.root ? -1 : 1));
  const lines: { heading: string; back: boolean; setting: string | null; told: Told[] }[] = [];
  for (const told of sorted) {
    const heading = headingOf(told.entry, totals);
    const setting = settingIn(told.entry, totals);
    const last = lines.at(-1);
    const before = last?.told.at(-1);
    const together =
      last !== undefined &&
      before !== undefined &&
      last.heading === heading &&
      last.setting === setting &&
      last.back === told.back &&
      isTap(told.entry) &&
      isTap(before.entry) &&
      told.at_ms - before.at_ms < TOGETHER_MS;
    if (together) last.told.push(told);
    else lines.push({ heading, back: told.back, setting, told: [told] });
  }
  return lines.reverse().map(({ heading, setting, told }) => ({
    heading,
    setting,
    told,
    at_ms: told.at(-1)?.at_ms ?? 0,
    parts: partsOf(told, totals),
  }));
}

/** The counts of several taps added up, family by family. */
function partsOf(told: readonly Told[], totals: Standing): string[] {
  const families = new Map<string, Part[]>();
  for (const part of told.flatMap(({ entry }) => partsIn(entry, totals))) {
    const own = families.get(part.whose);
    if (own) own.push(part);
    else families.set(part.whose, [part]);
  }
  return [...families].map(([whose, parts]) => `${whose}: ${addUp(parts)}`);
}
