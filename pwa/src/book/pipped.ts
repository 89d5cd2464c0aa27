/** Which eggs are pipped and still in the shell. */
import { byAscii } from "./code-points.ts";
import { comesOut } from "./stages.ts";
import { inStage, type Look, type Lot, type Move, type Setting } from "./standing.ts";

/** now: pipped and still in the shell. byLook: of each look's entry, its pips as far as eggs were left for them. */
export interface Pips {
  readonly now: number;
  readonly byLook: ReadonlyMap<string, number>;
}

/**
 * Of these lots together; among: moves of their setting that name no lot. A pip holds from look to look, over days,
 * until its egg is out: in the order in which it was written, chicks that come out were pipped before, and eggs that
 * pip after them are others. At no time more than are in the shell.
 */
export function pipsOf(lots: readonly Lot[], among: readonly Move[] = []): Pips {
  const shells = new Map(
    lots.map((lot) => [lot.id, { left: lot.moves.reduce(backIn, inShell(lot)), pipped: 0 }]),
  );
  const byLook = new Map<string, number>();
  let nobodys = 0; // pipped eggs whose chicks are out and may be of any lot
  const all = () => [...shells.values()].reduce((sum, { pipped }) => sum + pipped, 0);
  const acts = [...lots.flatMap(({ looks, moves }) => [...looks.filter(isAtHatch), ...moves]), ...among];
  for (const act of acts.sort((a, b) => a.atMs - b.atMs || byAscii(a.entry, b.entry))) {
    const own = shells.get(act.lot ?? "");
    if (own && "pipped" in act) {
      const pipped = Math.max(0, Math.min(act.pipped, own.left - own.pipped));
      own.pipped += pipped;
      byLook.set(act.entry, pipped);
    } else if (own && "n" in act) {
      own.left = backIn(own.left, { ...act, n: -act.n });
      own.pipped = Math.max(0, Math.min(own.pipped - (wasPipped(act) ? act.n : 0), own.left));
    } else if ("n" in act && wasPipped(act)) nobodys += act.n;
    nobodys = Math.min(nobodys, all());
  }
  return { now: all() - nobodys, byLook };
}

/** Never more than the shells of the setting that are still there. */
export function pippedIn(setting: Setting, lots: readonly Lot[]): number {
  return Math.min(pipsOf(lots, setting.among).now, inShell(setting));
}

const inShell = (one: Lot | Setting) => Math.max(0, inStage(one, "set") + inStage(one, "locked"));
const isAtHatch = (look: Look) => look.what === "hatch";
const isShell = (stage: string) => stage === "set" || stage === "locked";
const wasPipped = (move: Move) => comesOut(move) || move.target === "dead_external_pip";

/** Eggs in the shell before a move, from those after it. */
function backIn(after: number, { source, target, n }: Move): number {
  return after + (isShell(source) ? n : 0) - (isShell(target) ? n : 0);
}
