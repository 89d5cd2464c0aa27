/**
 * The daily sheet that an authority's order may ask for: how many birds were kept, hatched, came, left, died. From the
 * book alone; how many look ill only the keeper can say.
 */
import { keptHere, movesApart } from "./kept-here.ts";
import { outOfShell } from "./out-of-shell.ts";
import type { Standing } from "./standing.ts";
import { trafficOf, type Way } from "./traffic.ts";

/** One day. kept: at its end. came: found again too. died: culled too. */
export interface DaySheet {
  readonly on: string;
  readonly kept: number;
  readonly hatched: number;
  readonly came: number;
  readonly left: number;
  readonly died: number;
  readonly missing: number;
}

/** The sheet of some days, of the whole holding: chicks by their batches, birds one by one. */
export function daySheets(
  standing: Standing,
  days: readonly string[],
  dayOf: (atMs: number) => string,
): DaySheet[] {
  const passages = trafficOf(standing, dayOf).filter(
    ({ way }) => !way.startsWith("eggs") && way !== "treated",
  );
  const out = movesApart(standing)
    .flatMap(outOfShell)
    .map((move) => ({ on: dayOf(move.atMs), n: move.n }));
  const sum = (on: string, ...ways: Way[]) =>
    passages.reduce((all, one) => all + (one.on === on && ways.includes(one.way) ? (one.n ?? 0) : 0), 0);
  return days.map((on) => {
    const { birds, chicks } = keptHere(standing, on, dayOf);
    return {
      on,
      kept: chicks + birds.length,
      hatched: out.reduce((all, one) => all + (one.on === on ? one.n : 0), 0),
      came: sum(on, "came"),
      left: sum(on, "left"),
      died: sum(on, "died", "culled"),
      missing: sum(on, "missing"),
    };
  });
}
