/** Power cuts that were entered, as a machine sees them. The server's reports also guess some from the readings. */
import { DAY_MS, momentMs } from "./moments.ts";
import type { Head, Standing } from "./standing.ts";

/** untilMs: null while it lasts. everywhere: no place was named. */
export interface PowerCut {
  readonly head: Head<"outage">;
  readonly fromMs: number;
  readonly untilMs: number | null;
  readonly everywhere: boolean;
}

/** The power cuts at a place, in order of their beginning. */
export function powerCutsAt(standing: Standing, place: string): PowerCut[] {
  const cuts = (standing.heads.outage ?? []).flatMap((head): PowerCut[] => {
    const { from, until, places } = head.body;
    const fromMs = momentMs(from);
    const here = !places?.length || places.some((name) => (standing.rootOf.get(name) ?? name) === place);
    if (fromMs === null || !here) return [];
    const untilMs = until ? momentMs(until) : null;
    return [{ head, fromMs, untilMs, everywhere: !places?.length }];
  });
  return cuts.sort((a, b) => a.fromMs - b.fromMs || (a.head.id < b.head.id ? -1 : 1));
}

/** The cut that goes on, or the last one while its eggs are still to be candled again; null where there is neither. */
export function cutInMind(
  cuts: readonly PowerCut[],
  candleWithinDays: number,
  nowMs: number,
): PowerCut | null {
  const now = cuts.find((cut) => cut.untilMs === null);
  if (now) return now;
  const last = cuts.at(-1);
  return last && nowMs < last.fromMs + candleWithinDays * DAY_MS ? last : null;
}
