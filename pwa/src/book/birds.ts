/**
 * The birds of the book one by one: ids of one bird joined, what it is known by, and whether it is here. Mirrors
 * server/broodline/book/birds.py over tests/vectors/flock_checks.json.
 */
import type { Bird, Tag } from "./bodies.generated.ts";
import { byAscii, byCodePoint } from "./code-points.ts";
import type { Standing } from "./standing.ts";

export type Where = "here" | "lent" | "gone";

/** A bird. body: of all its ids joined, its tags those it wears. label: what a keeper knows it by. where: gone is dead, sold, given or lost. */
export interface OneBird {
  readonly id: string;
  readonly body: Readonly<Bird>;
  readonly label: string;
  readonly where: Where;
}

/** The identity of a bird: the smallest of all ids it goes by. */
export function birdId({ rootOf, sameBird }: Standing, name: string): string {
  const root = rootOf.get(name) ?? name;
  return sameBird.get(root) ?? root;
}

/** All birds by id. today: a local day; later leavings and comings do not count. null: all count. */
export function birdsOf(standing: Standing, today: string | null): ReadonlyMap<string, OneBird> {
  const where = whereabouts(standing, today);
  const worn = wornTags(standing, today);
  const joined = new Map<string, Readonly<Bird>>();
  for (const { root, body } of standing.heads.bird ?? []) {
    const id = birdId(standing, root);
    const known = joined.get(id);
    joined.set(id, known ? filledFrom(known, body) : body);
  }
  const sorted = [...joined].sort(([a], [b]) => byAscii(a, b));
  return new Map(
    sorted.map(([id, written]) => {
      const body = { ...written, tags: [...(worn.get(id) ?? [])] };
      return [id, { id, body, label: labelOf(standing, id, body), where: where.get(id) ?? "here" }];
    }),
  );
}

/** Of birds that came or left, by the last of it up to a day; on one day a coming counts last, but for a death. */
export function whereabouts(standing: Standing, today: string | null): ReadonlyMap<string, Where> {
  const last = new Map<string, readonly [on: string, order: number, where: Where]>();
  const take = (bird: string, on: string, order: number, where: Where) => {
    if (today !== null && on > today) return;
    const id = birdId(standing, bird);
    const known = last.get(id);
    const later = !known || byAscii(on, known[0]) || order - known[1] || byCodePoint(where, known[2]);
    if (later === true || later > 0) last.set(id, [on, order, where]);
  };
  for (const { body } of standing.heads.left ?? []) {
    const order = body.how === "died" || body.how === "culled" ? 2 : 0;
    take(body.bird, body.on, order, body.how === "lent" ? "lent" : "gone");
  }
  for (const { body } of standing.heads.came ?? [])
    if (isThere(body.bird)) take(body.bird, body.on, 1, "here");
  return new Map([...last].map(([bird, [, , where]]) => [bird, where]));
}

/**
 * Rings, tags and chips by bird, up to a day: those it was written down with and those put on later, in the order of
 * the book, without those that another replaced.
 */
function wornTags(standing: Standing, today: string | null): ReadonlyMap<string, readonly Tag[]> {
  const { heads, rootOf } = standing;
  const marked = (heads.marked ?? []).filter(({ body: { on } }) => today === null || !on || on <= today);
  const gone = new Set(
    marked.flatMap(({ body: { replaces: old } }) => (old ? [rootOf.get(old) ?? old] : [])),
  );
  const worn = new Map<string, Tag[]>();
  const put = (bird: string, root: string, tags: readonly Tag[]) => {
    if (tags.length === 0 || gone.has(root)) return;
    const id = birdId(standing, bird);
    worn.set(id, [...(worn.get(id) ?? []), ...tags]);
  };
  for (const { root, body } of heads.bird ?? []) put(root, root, body.tags ?? []);
  for (const { root, body } of marked)
    if (isThere(body.bird) && body.tag && !body.recheck) put(body.bird, root, [body.tag]);
  return worn;
}

/** The earliest id of a bird stands (heads come in order of identity), the others fill what it leaves open. */
function filledFrom(first: Readonly<Bird>, other: Readonly<Bird>): Readonly<Bird> {
  const named = Object.entries(other).filter(([field, value]) => {
    const known = (first as unknown as Record<string, unknown>)[field];
    return (
      value !== null && value !== undefined && (known === null || known === undefined || known === "unknown")
    );
  });
  return { ...first, ...Object.fromEntries(named) };
}

/** Name, else its ring, else its family and sex with the end of its id. */
function labelOf({ families, rootOf }: Standing, id: string, body: Readonly<Bird>): string {
  if (body.name) return body.name;
  const tag = (body.tags ?? []).find(({ text }) => text);
  if (tag?.text) return tag.colour ? `${tag.colour} ${tag.text}` : tag.text;
  const family = body.family ? families.get(rootOf.get(body.family) ?? body.family) : undefined;
  const sex = { male: "cock", female: "hen", unknown: "bird" }[body.sex];
  return family ? `${family.name} ${sex} ${id.slice(-4)}` : `${sex} ${id.slice(-4)}`;
}

function isThere(name: string | null | undefined): name is string {
  return name !== null && name !== undefined;
}

/** The one batch a bird can have come from. */
export function lotOf(bird: Readonly<Bird> | undefined): string | null {
  const lots = new Set((bird?.lots ?? []).map(({ lot }) => lot));
  const [only] = lots;
  return lots.size === 1 && only !== undefined ? only : null;
}
