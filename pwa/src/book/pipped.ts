/** Which eggs of a lot are pipped and still in the shell. */
import { byAscii } from "./code-points.ts";
import { comesOut } from "./stages.ts";
import { inStage, type Lot } from "./standing.ts";

/**
 * Pipped by the looks at the hatch of one day of incubation: in the order in which it was written, chicks that come
 * out were pipped before, and eggs that pip after them are others. Never more than are in the shell.
 */
export function pippedOn(lot: Lot, day: number): number {
  const seen = [
    ...lot.looks.filter((look) => look.what === "hatch" && look.day === day),
    ...lot.moves.filter(comesOut),
  ].sort((a, b) => a.atMs - b.atMs || byAscii(a.entry, b.entry));
  const left = seen.reduce((sum, one) => Math.max(0, sum + ("n" in one ? -one.n : one.pipped)), 0);
  return Math.min(left, inStage(lot, "set") + inStage(lot, "locked"));
}
