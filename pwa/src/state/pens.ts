import { birdId } from "../book/birds.ts";
import type { Penned } from "../book/bodies.generated.ts";
import type { Entry } from "../book/entries.ts";
import { birdsOfPen, isSameHouse, type PenStay, penStays, standingPens } from "../book/pen-stays.ts";
import { shifted } from "../trade/backwards.ts";
import { headOf } from "./actions.ts";
import { amend } from "./holding.ts";
import { type Draft, write } from "./recording.ts";
import { standing } from "./standing.ts";

/** The verbs of pens: who stands with whom, from when to when. */

/**
 * A pen is put together. Birds of it that stand in another house leave that one on the day: its pen is written anew
 * without them, all at once with the new one.
 */
export function putTogether(body: Penned): Promise<Entry[]> {
  return write([{ kind: "penned", body }, ...partings(body)]);
}

/** What a pen says is put right: the entry itself, not what came after. */
export const correctPen = (entry: string, body: Penned): Promise<Entry> => amend(entry, "penned", body);

/** A pen is taken apart: its last day. */
export const endPen = ({ entry, body }: PenStay, until: string): Promise<Entry> =>
  amend(entry, "penned", { ...body, until });

/** Pens of other houses that stand on the day of the new one and hold a bird of it. */
export function pensLeft(body: Penned): PenStay[] {
  const totals = standing.value;
  const root = (id: string) => totals.rootOf.get(id) ?? id;
  const house = { family: root(body.family), place: body.place ? root(body.place) : null };
  const birds = birdsOfPen(totals, { body });
  return standingPens(penStays(totals), body.since.slice(0, 10)).filter(
    (pen) => !isSameHouse(pen, house) && [...birdsOfPen(totals, pen)].some((bird) => birds.has(bird)),
  );
}

function partings(body: Penned): Draft[] {
  const totals = standing.value;
  const gone = birdsOfPen(totals, { body });
  const stays = (birds: Penned["sires"]) => {
    const left = birds.filter(({ bird }) => !gone.has(birdId(totals, bird)));
    const told = left.reduce((sum, { share }) => sum + (share ?? 0), 0);
    const said = left.every(({ share }) => share !== undefined && share !== null) && told > 0;
    return left.map(({ bird, share }) => (said ? { bird, share: (share ?? 0) / told } : { bird }));
  };
  return pensLeft(body).flatMap((pen): Draft[] => {
    const sires = stays(pen.body.sires);
    const dams = stays(pen.body.dams);
    const head = headOf(pen.entry);
    const amends = head?.id ?? pen.entry;
    const isNew = pen.since === body.since.slice(0, 10);
    if (dams.length === 0) {
      const until = shifted(body.since.slice(0, 10), -1) ?? pen.since;
      return [
        isNew
          ? { kind: "penned", body: pen.body, amends, void: true }
          : { kind: "penned", body: { ...pen.body, until }, amends },
      ];
    }
    const after = { ...pen.body, since: body.since, sires, dams };
    return [{ kind: "penned", body: after, ...(isNew ? { amends } : {}) }];
  });
}
