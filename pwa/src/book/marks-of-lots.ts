/** The marks that chicks of a lot were given, in order of time. */
import type { Bodies } from "./bodies.generated.ts";
import { byAscii } from "./code-points.ts";
import type { Heads, Standing } from "./standing.ts";

type Marked = Bodies["marked"];
type Web = NonNullable<Marked["webs"]>[number];

/**
 * Chicks of a lot marked at once. webs: those punched, or none. tag: the ring, wing tag, web tag or chip put on. n: how
 * many; null: all of the lot. on: the date, where it was given. recheck: an older mark looked at again. again: a mark
 * put in an older one's place.
 */
export interface Mark {
  readonly entry: string;
  readonly lot: string;
  readonly atMs: number;
  readonly on: string | null;
  readonly webs: readonly Web[];
  readonly tag: NonNullable<Marked["tag"]> | null;
  readonly n: number | null;
  readonly recheck: boolean;
  readonly again: boolean;
}

/** The marks of each lot in order of time. */
export function marksOfLots(heads: Heads): ReadonlyMap<string, readonly Mark[]> {
  const found = new Map<string, Mark[]>();
  for (const { id, atMs, body } of heads.marked ?? []) {
    if (!body.lot) continue;
    const mark: Mark = {
      entry: id,
      lot: body.lot,
      atMs,
      on: body.on ?? null,
      webs: body.webs ?? [],
      tag: body.tag ?? null,
      n: body.n ?? null,
      recheck: body.recheck ?? false,
      again: typeof body.replaces === "string",
    };
    found.set(body.lot, [...(found.get(body.lot) ?? []), mark]);
  }
  for (const marks of found.values()) marks.sort((a, b) => a.atMs - b.atMs || byAscii(a.entry, b.entry));
  return found;
}

/** Tells of an entry whether the mark it gave was replaced by another, whichever of its corrections either names. */
export function replacedMarks({
  heads,
  rootOf,
}: Pick<Standing, "heads" | "rootOf">): (entry: string) => boolean {
  const gone = new Set(
    (heads.marked ?? []).flatMap(({ body: { replaces } }) =>
      replaces ? [rootOf.get(replaces) ?? replaces] : [],
    ),
  );
  return (entry) => gone.has(rootOf.get(entry) ?? entry);
}
