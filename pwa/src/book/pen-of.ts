/** Who stands in which pen on a day. A bird stands where it was penned last; a pen ends on its last day. */
import { birdId } from "./birds.ts";
import type { Penned } from "./bodies.generated.ts";
import type { Standing } from "./standing.ts";

/** The pens of a day, by bird: the latest that names it. */
export function pensOn(standing: Standing, day: string): ReadonlyMap<string, Readonly<Penned>> {
  const found = new Map<string, Readonly<Penned>>();
  for (const { body } of standing.heads.penned ?? []) {
    const stands = body.since.slice(0, 10) <= day && (!body.until || day <= body.until.slice(0, 10));
    if (!stands) continue;
    for (const { bird } of [...body.sires, ...body.dams]) {
      const id = birdId(standing, bird);
      const known = found.get(id);
      if (known === undefined || known.since <= body.since) found.set(id, body);
    }
  }
  return found;
}

/** The birds that stand in a place on a day. */
export function birdsIn(standing: Standing, place: string, day: string): string[] {
  return [...pensOn(standing, day)].flatMap(([bird, pen]) =>
    pen.place && (standing.rootOf.get(pen.place) ?? pen.place) === place ? [bird] : [],
  );
}
