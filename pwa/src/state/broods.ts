import type { Bodies } from "../book/bodies.generated.ts";
import type { Entry } from "../book/entries.ts";
import type { Stages } from "../book/standing.ts";
import { record } from "./actions.ts";
import { type Draft, write } from "./recording.ts";

/** The verbs of the weeks after the hatch. */

/**
 * Young of one batch as they stand in a place, and how many of them an act is about. among: the batches they may be of,
 * where nobody knows which; else empty.
 */
export interface Some {
  readonly lot: string;
  readonly among: readonly string[];
  readonly stages: Stages;
  readonly n: number;
}

const YOUNG = ["hatched", "brooding", "growing"];

/** How n of these are spread over their stages: those under heat before those that grow, the youngest first. */
export function spread({ lot, among, stages, n }: Some) {
  const whose = among.length > 0 ? { among: [...among] } : { lot };
  let left = n;
  return YOUNG.flatMap((from) => {
    const some = Math.min(left, stages.get(from) ?? 0);
    left -= some;
    return some > 0 ? [{ ...whose, from, n: some }] : [];
  });
}

/**
 * Young move house: one entry for what leaves the hatcher, one for the rest; all of it or nothing. A stage never goes
 * back: who grows goes on growing.
 */
export function moveYoung(
  some: readonly Some[],
  to: { readonly place: string; readonly stage: "brooding" | "growing" },
  at?: Date,
): Promise<Entry[]> {
  const moves = some.flatMap(spread).map((move) => {
    return { ...move, to: move.from === "growing" ? move.from : to.stage };
  });
  const out = moves.filter(({ from }) => from === "hatched");
  const rest = moves.filter(({ from }) => from !== "hatched");
  // Off heat at once: by way of the brooder, as the stages go.
  const pulled = out.map((move) => ({ ...move, to: "brooding" }));
  const grown = out
    .filter(({ to: stage }) => stage === "growing")
    .map((move) => ({ ...move, from: "brooding" }));
  const drafts = [
    { moves: pulled, why: "pulled" as const },
    { moves: [...grown, ...rest], why: "brooded" as const },
  ].flatMap(({ moves: list, why }): Draft[] =>
    list.length === 0
      ? []
      : [{ kind: "moved", body: { moves: list, why, place: to.place }, ...(at ? { at } : {}) }],
  );
  return drafts.length === 0 ? Promise.resolve([]) : write(drafts);
}

/** How chicks are lost. */
export type Lost = "died" | "culled" | "unaccounted";

/** What is known of a loss. among: the batches, where it is not known which of them. */
export interface Loss {
  readonly how: Lost;
  readonly cause?: Bodies["moved"]["cause"];
  readonly place?: string;
  readonly at?: Date;
}

/** Chicks of one batch that died, were culled or are missing. */
export function loseYoung(some: Some, loss: Loss): Promise<Entry> {
  const moves = spread(some).map((move) => ({ ...move, to: loss.how }));
  return lose(moves, loss);
}

/** One of several batches of a hatch lost some, and nobody knows which. from: the stage they were in. */
export function loseAmong(lots: readonly string[], from: string, n: number, loss: Loss): Promise<Entry> {
  return lose([{ among: [...lots], from, to: loss.how, n }], loss);
}

/** A missing chick is found: it goes back to that stage, where most of the others are. */
export function foundAgain(whose: { lot: string } | { among: string[] }, to: string): Promise<Entry> {
  return record("moved", { moves: [{ ...whose, from: "unaccounted", to, n: 1 }] });
}

function lose(moves: Bodies["moved"]["moves"], { cause, place, at }: Loss): Promise<Entry> {
  const body = { moves, why: "lost" as const, ...(cause ? { cause } : {}), ...(place ? { place } : {}) };
  return record("moved", body, at ? { at } : {});
}
