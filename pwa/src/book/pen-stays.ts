/**
 * Pens as they were written down, with the day each ended. Mirrors the days of server/broodline/reports/pens.py over
 * tests/vectors/pen_stays.json.
 */
import { birdId } from "./birds.ts";
import type { Penned } from "./bodies.generated.ts";
import { byAscii } from "./code-points.ts";
import type { Standing } from "./standing.ts";

/**
 * Who stood together for a time. until: the last day, null while it lasts; ended: its own last day was written, else
 * the next pen of its house took its place that day. isVisit: no hens are named, a bird got in.
 */
export interface PenStay {
  readonly entry: string;
  readonly family: string;
  readonly place: string | null;
  readonly since: string;
  readonly until: string | null;
  readonly ended: boolean;
  readonly isVisit: boolean;
  readonly body: Readonly<Penned>;
}

/** All pens, the earliest first. */
export function penStays({ heads, rootOf }: Pick<Standing, "heads" | "rootOf">): PenStay[] {
  const root = (id: string) => rootOf.get(id) ?? id;
  const written = [...(heads.penned ?? [])].sort(
    (a, b) => byAscii(a.body.since.slice(0, 10), b.body.since.slice(0, 10)) || byAscii(a.id, b.id),
  );
  const stays = written.map(({ root: entry, body }): PenStay => {
    const until = body.until?.slice(0, 10) ?? null;
    return {
      entry,
      family: root(body.family),
      place: body.place ? root(body.place) : null,
      since: body.since.slice(0, 10),
      until,
      ended: until !== null,
      isVisit: body.dams.length === 0,
      body,
    };
  });
  return stays.map((stay, at) => {
    if (stay.ended || stay.isVisit) return stay;
    const next = stays
      .slice(at + 1)
      .find((other) => !other.isVisit && isSameHouse(stay, other) && stay.since < other.since);
    return next ? { ...stay, until: next.since } : stay;
  });
}

/** Whether two pens of a family may have been one and the same. */
export const isSameHouse = (
  one: Pick<PenStay, "family" | "place">,
  other: Pick<PenStay, "family" | "place">,
): boolean =>
  one.family === other.family && (one.place === null || other.place === null || one.place === other.place);

/** Pens with hens that stand on a day; of one house, that which came last on it. */
export const standingPens = (stays: readonly PenStay[], day: string): PenStay[] =>
  stays.filter((stay) => !stay.isVisit && standsOn(stay, day));

/** Whether a pen stands on a day: it does on its own last day, and no more on that of the next of its house. */
export const standsOn = ({ since, until, ended }: PenStay, day: string): boolean =>
  since <= day && (until === null || (ended ? day <= until : day < until));

/** Ids of the birds of a pen. */
export const birdsOfPen = (standing: Standing, { body }: Pick<PenStay, "body">): Set<string> =>
  new Set([...body.sires, ...body.dams].map(({ bird }) => birdId(standing, bird)));
