/**
 * Birds that came out of one batch, were known by themselves, and have left since: the batch's count still holds them.
 * Mirrors server/broodline/book/gone_birds.py, where the rule stands, over tests/vectors/tied.json.
 */
import { birdId, birdsOf, lotOf } from "./birds.ts";
import { byAscii } from "./code-points.ts";
import type { Standing } from "./standing.ts";

/** on: the local day it left. how: "died", "culled", "sold", "given" or "lost". */
export interface GoneBird {
  readonly on: string;
  readonly how: string;
}

/** The cause that is written of a forebear known from another holding's papers. */
export const NEVER_HERE = "never here";

/** The birds gone by a local day, of each batch that has any, in order of days. */
export function goneBirds(standing: Standing, today: string): ReadonlyMap<string, readonly GoneBird[]> {
  const birds = birdsOf(standing, today);
  const last = new Map<string, GoneBird>();
  for (const { body } of standing.heads.left ?? []) {
    const { how, on } = body;
    const bird = birdId(standing, body.bird);
    if (how === "lent" || body.cause === NEVER_HERE || on > today || birds.get(bird)?.where !== "gone")
      continue;
    const known = last.get(bird);
    if (known === undefined || byDay({ on, how }, known) > 0) last.set(bird, { on, how });
  }
  const found = new Map<string, GoneBird[]>();
  for (const [bird, gone] of last) {
    const lot = lotOf(birds.get(bird)?.body);
    if (lot !== null) found.set(lot, [...(found.get(lot) ?? []), gone].sort(byDay));
  }
  return found;
}

const byDay = (one: GoneBird, other: GoneBird) => byAscii(one.on, other.on) || byAscii(one.how, other.how);
