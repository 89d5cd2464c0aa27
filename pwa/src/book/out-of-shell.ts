/** Chicks that come out of their shells; a missing chick that is put back is none. Mirrors server/broodline/book/out_of_shell.py. */
import { inTime } from "./moves.ts";
import { CHICK_STAGES, comesOut, MISSING } from "./stages.ts";
import type { Move } from "./standing.ts";

/**
 * Moves of eggs into hatched, in order of time. What was lost from sight and is put there is an egg only beyond the
 * chicks that are missing by then; n is that of the eggs.
 */
export function outOfShell(moves: readonly Move[]): Move[] {
  return putBack(moves).flatMap(([move, back]) =>
    comesOut(move) && move.n > back ? [{ ...move, n: move.n - back }] : [],
  );
}

/** Each move, in order of time, and how many of those it moves are chicks that were missing. */
export function putBack(moves: readonly Move[]): [Move, back: number][] {
  let missing = 0;
  return inTime(moves).map((move) => {
    const { source, target, n } = move;
    const isBack = source === MISSING && CHICK_STAGES.includes(target);
    const back = isBack ? Math.min(missing, n) : 0;
    missing += CHICK_STAGES.includes(source) && target === MISSING ? n : -back;
    return [move, back];
  });
}
