/**
 * Corrections: entries that amend entries form trees; each tree has one head, and only heads count. From the root go
 * to the greatest child id at each fork until there is none. A tip off that path is a loser. The result depends on
 * the set of entries alone, never on their order or on a clock. Mirrors server/broodline/book/trees.py.
 */
import { byAscii, byCodePoint } from "./code-points.ts";
import type { Entry } from "./entries.ts";
import { canonical } from "./wire.ts";

/**
 * byId: one entry for each id. rootOf: the root of each entry's tree (entries of a cycle have none). heads: root id ->
 * head entry. losers: tips off the path to a head. circular: the smallest id of each ring of entries that amend each
 * other. clashing: ids that came with more than one content. awaited: ids that entries amend and nobody brought yet.
 */
export interface Trees {
  readonly byId: ReadonlyMap<string, Entry>;
  readonly rootOf: ReadonlyMap<string, string>;
  readonly heads: ReadonlyMap<string, Entry>;
  readonly losers: readonly string[];
  readonly circular: readonly string[];
  readonly clashing: readonly string[];
  readonly awaited: ReadonlySet<string>;
}

/** The trees of any collection of entries, in any order, with any duplicates. */
export function growTrees(entries: Iterable<Entry>): Trees {
  const { byId, clashing } = oneForEachId(entries);
  const children = new Map<string, Entry[]>();
  const roots: Entry[] = [];
  const awaited = new Set<string>();
  for (const entry of byId.values()) {
    if (entry.amends !== null && byId.has(entry.amends)) addTo(children, entry.amends, entry);
    else {
      roots.push(entry);
      if (entry.amends !== null) awaited.add(entry.amends);
    }
  }
  const rootOf = new Map<string, string>();
  const heads = new Map<string, Entry>();
  const losers: string[] = [];
  for (const root of roots) {
    if (!children.has(root.id)) {
      // Most entries are never corrected.
      rootOf.set(root.id, root.id);
      heads.set(root.id, root);
      continue;
    }
    const head = headFrom(root, children);
    heads.set(root.id, head);
    const branch = [root];
    for (let member = branch.pop(); member !== undefined; member = branch.pop()) {
      rootOf.set(member.id, root.id);
      const below = children.get(member.id) ?? [];
      for (const child of below) branch.push(child);
      if (below.length === 0 && member !== head) losers.push(member.id);
    }
  }
  const circular = rootOf.size < byId.size ? rings(byId, rootOf) : [];
  return { byId, rootOf, heads, losers, circular, clashing: [...clashing], awaited };
}

function oneForEachId(entries: Iterable<Entry>): { byId: Map<string, Entry>; clashing: Set<string> } {
  const byId = new Map<string, Entry>();
  const clashing = new Set<string>();
  for (const entry of entries) {
    const known = byId.get(entry.id);
    if (known === undefined) {
      byId.set(entry.id, entry);
    } else if (known !== entry) {
      const order = byCodePoint(canonical(entry), canonical(known));
      if (order !== 0) clashing.add(entry.id);
      if (order < 0) byId.set(entry.id, entry);
    }
  }
  return { byId, clashing };
}

function headFrom(root: Entry, children: ReadonlyMap<string, readonly Entry[]>): Entry {
  let head = root;
  for (let below = children.get(head.id); below !== undefined; below = children.get(head.id)) {
    head = below.reduce((greatest, child) => (child.id > greatest.id ? child : greatest));
  }
  return head;
}

/** The smallest id of every ring among the entries that hang on no root. */
function rings(byId: ReadonlyMap<string, Entry>, rootOf: ReadonlyMap<string, string>): string[] {
  const smallest: string[] = [];
  const seen = new Set<string>();
  for (const start of byId.keys()) {
    if (rootOf.has(start)) continue;
    const walk: string[] = [];
    let step = start;
    while (!seen.has(step)) {
      seen.add(step);
      walk.push(step);
      step = byId.get(step)?.amends ?? "";
    }
    if (walk.includes(step)) smallest.push(...walk.slice(walk.indexOf(step)).sort(byAscii).slice(0, 1));
  }
  return smallest;
}

function addTo<V>(lists: Map<string, V[]>, key: string, value: V): void {
  const list = lists.get(key);
  if (list === undefined) lists.set(key, [value]);
  else list.push(value);
}
