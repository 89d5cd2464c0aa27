// Chicks that were written down as birds, with rings of their own, before they left their batch. Pure.
import { birdId, lotOf } from "./birds.ts";
import { inStage, type Lot, type Standing } from "./standing.ts";

const YOUNG = ["growing", "brooding", "hatched"] as const;

/** Chicks of a batch that are also birds of the book: one head each, though both count it. At most its chicks. */
export function namedYoung(standing: Standing, lot: Lot): number {
  const written = (standing.heads.bird ?? []).filter(({ body }) => lotOf(body) === lot.id);
  const birds = new Set(written.map(({ root }) => birdId(standing, root))).size;
  const chicks = YOUNG.reduce((sum, stage) => sum + Math.max(0, inStage(lot, stage)), 0);
  return Math.min(chicks, Math.max(0, birds - inStage(lot, "flock")));
}
