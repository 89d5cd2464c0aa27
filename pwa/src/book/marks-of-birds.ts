/** The marks that birds wear, each by the entry that tells of it. */
import { birdId } from "./birds.ts";
import type { Bodies } from "./bodies.generated.ts";
import type { Standing } from "./standing.ts";

type Tag = NonNullable<Bodies["marked"]["tag"]>;
type Webs = NonNullable<Bodies["marked"]["webs"]>;

/**
 * A mark of one bird. entry: that tells of it, by which it is taken back or replaced. first: the bird was written down
 * with it, so it is not an act of its own. webs: those punched, or none.
 */
export interface BirdMark {
  readonly entry: string;
  readonly atMs: number;
  readonly first: boolean;
  readonly webs: Webs;
  readonly tag: Tag | null;
}

/** What each bird wears, in order of time; a mark that another one replaced is worn no more. */
export function marksOfBirds(standing: Standing): ReadonlyMap<string, readonly BirdMark[]> {
  const { heads, rootOf } = standing;
  const gone = new Set(
    (heads.marked ?? []).flatMap(({ body: { replaces } }) =>
      replaces ? [rootOf.get(replaces) ?? replaces] : [],
    ),
  );
  const found = new Map<string, BirdMark[]>();
  const put = (bird: string, mark: BirdMark) => {
    const id = birdId(standing, bird);
    found.set(id, [...(found.get(id) ?? []), mark]);
  };
  for (const { root, atMs, body } of heads.bird ?? []) {
    const webs = body.webs ?? [];
    const about = { entry: root, atMs, first: true };
    if (webs.length > 0) put(root, { ...about, webs, tag: null });
    // Webs grow over, a ring comes off: what replaces a bird's first mark replaces its rings.
    if (!gone.has(root)) for (const tag of body.tags ?? []) put(root, { ...about, webs: [], tag });
  }
  for (const { root, atMs, body } of heads.marked ?? []) {
    if (!body.bird || body.recheck || gone.has(root)) continue;
    put(body.bird, { entry: root, atMs, first: false, webs: body.webs ?? [], tag: body.tag ?? null });
  }
  for (const marks of found.values()) marks.sort((a, b) => a.atMs - b.atMs);
  return found;
}
