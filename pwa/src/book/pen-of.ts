/**
 * Who stands in which pen on a day. A bird stands in the last pen that names it and stands then; a pen ends on its last
 * day, or where the next of its house took its place, also for a bird that was left out of that one.
 */
import { birdsOfPen, type PenStay, penStays, standsOn } from "./pen-stays.ts";
import type { Standing } from "./standing.ts";

/** The pens of a day, by bird: the latest that names it. */
export function pensOn(standing: Standing, day: string): ReadonlyMap<string, PenStay> {
  const found = new Map<string, PenStay>();
  for (const stay of penStays(standing)) {
    if (!standsOn(stay, day)) continue;
    for (const bird of birdsOfPen(standing, stay)) found.set(bird, stay);
  }
  return found;
}

/** The birds that stand in a place on a day. */
export function birdsIn(standing: Standing, place: string, day: string): string[] {
  return [...pensOn(standing, day)].flatMap(([bird, pen]) => (pen.place === place ? [bird] : []));
}

/** All pens that ever named a bird, the earliest first. */
export const pensNaming = (standing: Standing, bird: string): PenStay[] =>
  penStays(standing).filter((stay) => birdsOfPen(standing, stay).has(bird));

/**
 * Whether a bird with these pens, the earliest first, stood in a place on any day from the first to the last; on the day
 * it was moved out it did. Not where a later pen held it all that time.
 */
export function stoodIn(own: readonly PenStay[], place: string, first: string, last: string): boolean {
  return own.some(
    (stay, at) =>
      stay.place === place &&
      stay.since <= last &&
      (stay.until === null || first <= stay.until) &&
      !own.slice(at + 1).some((other) => other.since < first && standsOn(other, last)),
  );
}
