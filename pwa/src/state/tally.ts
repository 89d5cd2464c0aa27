import type { LotMove, Moved } from "../book/bodies.generated.ts";
import type { Entry } from "../book/entries.ts";
import type { Lot } from "../book/standing.ts";
import { record, undo } from "./actions.ts";
import { standing } from "./standing.ts";

/**
 * The verbs of the counting screen: one tap is one durable entry, and counts of several phones add up.
 * `day` is the day of incubation on which the tally was opened; the looks of one day belong together.
 */

export interface Look {
  readonly setting: string;
  readonly lot: string;
  readonly day: number;
  readonly n?: number;
}

/** Seen alive at a candling. */
export function lookLive({ setting, lot, day, n = 1 }: Look): Promise<Entry> {
  return record("looked", { setting, lot, what: "candled", day, live: n });
}

/** Not sure: to be looked at again. */
export function lookUnsure({ setting, lot, day, n = 1 }: Look): Promise<Entry> {
  return record("looked", { setting, lot, what: "candled", day, unsure: n });
}

/** Pipped at a look into the hatcher. */
export function lookPipped({ setting, lot, day, n = 1 }: Look): Promise<Entry> {
  return record("looked", { setting, lot, what: "hatch", day, pipped: n });
}

/** A look into the hatcher that found nothing new; it closes an interval of the hatch window. */
export function lookNone({ setting, lot, day }: Look): Promise<Entry> {
  return record("looked", { setting, lot, what: "hatch", day, none: true });
}

export interface Take {
  /** The lot; or all lots it may have come from, where the family is not known. */
  readonly lot: string | readonly string[];
  /** Where the egg is now; the stage it rests in, unless said. */
  readonly from?: string;
  readonly to: string;
  readonly n?: number;
  readonly day?: number;
  readonly why?: NonNullable<Moved["why"]>;
  readonly cause?: string;
  readonly place?: string;
  readonly helped?: boolean;
  readonly weak?: boolean;
}

/** One egg or chick moved: clear, blood ring, quitter, cracked, hatched, brooded, died. */
export function take({ lot, from, to, n = 1, ...about }: Take): Promise<Entry> {
  const named = named_(lot);
  return record("moved", { moves: [{ ...named, from: from ?? restingIn(lot), to, n }], ...about });
}

/**
 * A chick out of its egg. It is taken from the hatcher's eggs; where none is left there, from those still set,
 * for eggs that hatched before lockdown.
 */
export function hatched({ lot, n = 1, ...about }: Omit<Take, "from" | "to">): Promise<Entry> {
  return take({ lot, to: "hatched", n, why: "hatch", ...about });
}

/**
 * An egg broken open after the hatch. One that still lies in the hatcher did not hatch, which is recorded in the
 * same entry.
 */
export function openEgg({ lot, from, to, n = 1, ...about }: Take): Promise<Entry> {
  const source = from ?? restingIn(lot);
  const named = named_(lot);
  const moves: LotMove[] =
    source === "locked" || source === "set"
      ? [
          { ...named, from: source, to: "unhatched", n },
          { ...named, from: "unhatched", to, n },
        ]
      : [{ ...named, from: source, to, n }];
  return record("moved", { moves, why: "opened", ...about });
}

/** Eggs of a lot that nobody has judged yet in the candling of that day. */
export function notYetJudged(lot: string, day: number): number {
  const found = standing.value.lots.get(lot);
  if (!found) return 0;
  const [live, unsure] = looksOf(found, day);
  return Math.max(0, (found.stages.get("set") ?? 0) + (found.stages.get("locked") ?? 0) - live - unsure);
}

/** "The rest are live": finishes a lot in one tap. Null where nothing is left to judge. */
export async function restAreLive(look: Omit<Look, "n">): Promise<Entry | null> {
  const n = notYetJudged(look.lot, look.day);
  return n > 0 ? lookLive({ ...look, n }) : null;
}

/** "Count again": takes back that day's looks of a lot, so that the count starts anew. Moved eggs stay moved. */
export async function countAgain(lot: string, what: "candled" | "hatch", day: number): Promise<void> {
  const looks = standing.value.lots.get(lot)?.looks ?? [];
  await undo(...looks.filter((look) => look.what === what && look.day === day).map((look) => look.entry));
}

/** A physical count beside the figure this phone shows; a difference becomes a problem to settle. */
export function countedByHand(lot: string, stage: string, n: number): Promise<Entry> {
  const ledger = standing.value.lots.get(lot)?.stages.get(stage) ?? 0;
  return record("counted", { lot, stage, n, ledger });
}

function looksOf(lot: Lot, day: number): [number, number] {
  let live = 0;
  let unsure = 0;
  for (const look of lot.looks) {
    if (look.what !== "candled" || look.day !== day) continue;
    live += look.live;
    unsure += look.unsure;
  }
  return [live, unsure];
}

/** Where a lot's eggs lie: in the hatcher once any was moved there and is left, else in the incubator. */
function restingIn(lot: Take["lot"]): string {
  const lots = typeof lot === "string" ? [lot] : lot;
  const count = (stage: string) =>
    lots.reduce((sum, id) => sum + (standing.value.lots.get(id)?.stages.get(stage) ?? 0), 0);
  if (count("locked") > 0 || count("set") <= 0) return wasLocked(lots) ? "locked" : "set";
  return "set";
}

function wasLocked(lots: readonly string[]): boolean {
  return lots.some((id) => standing.value.lots.get(id)?.moves.some((move) => move.target === "locked"));
}

function named_(lot: Take["lot"]): { lot: string } | { among: string[] } {
  return typeof lot === "string" ? { lot } : { among: [...lot] };
}
