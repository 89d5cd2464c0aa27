/** Chicks that come out of their shells; a missing chick that is put back is none. Mirrors server/broodline/book/out_of_shell.py. */
import { inTime } from "./moves.ts";
import { CHICK_STAGES, MISSING } from "./stages.ts";
import type { Move } from "./standing.ts";

/**
 * Moves of eggs into hatched, in order of time. What was lost from sight and is put there is an egg only beyond the
 * chicks that are missing by then; n is that of the eggs.
 */
export function outOfShell(moves: readonly Move[]): Move[] {
  const out = moves.filter(({ source, target }) => target === "hatched" && !CHICK_STAGES.includes(source));
  return out.some(({ source }) => source === MISSING) ? withoutChicks(inTime(moves)) : inTime(out);
}

function withoutChicks(moves: readonly Move[]): Move[] {
  let missing = 0;
  return moves.flatMap((move) => {
    if (CHICK_STAGES.includes(move.source)) {
      missing += move.target === MISSING ? move.n : 0;
      return [];
    }
    const isBack = move.source === MISSING && CHICK_STAGES.includes(move.target);
    const back = isBack ? Math.min(missing, move.n) : 0;
    missing -= back;
    if (move.target !== "hatched" || move.n <= back) return [];
    return [back > 0 ? { ...move, n: move.n - back } : move];
  });
}
