/** Turning by hand: which mark lies up, and how often today. The phone's own; nothing else reckons with it. */
import { localDate } from "../trade/calendar.ts";
import type { Standing } from "./standing.ts";

export type Side = "x" | "o";

/** today: turns on this date in the holding's zone. side: the mark now up, null where no turn said so. */
export interface Turning {
  readonly today: number;
  readonly lastMs: number | null;
  readonly side: Side | null;
  readonly next: Side;
}

/** Turns at a place since `sinceMs`, when the eggs that lie there were set. */
export function turningAt(standing: Standing, place: string, sinceMs: number, nowMs: number): Turning {
  const { zone } = standing.keeper;
  const date = localDate(nowMs, zone);
  const turns = (standing.heads.turned ?? [])
    .filter(({ body, atMs }) => (standing.rootOf.get(body.place) ?? body.place) === place && atMs >= sinceMs)
    .sort((a, b) => a.atMs - b.atMs || (a.id < b.id ? -1 : 1));
  const side = turns.flatMap(({ body }) => body.side ?? []).at(-1) ?? null;
  return {
    today: turns.filter(({ atMs }) => localDate(atMs, zone) === date).length,
    lastMs: turns.at(-1)?.atMs ?? null,
    side,
    next: side === "x" ? "o" : "x",
  };
}
