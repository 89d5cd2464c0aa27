import type { LotMove, Moved } from "../book/bodies.generated.ts";
import type { Entry } from "../book/entries.ts";
import type { Stages } from "../book/standing.ts";
import { type RecordOptions, record, undo } from "./actions.ts";
import { standing } from "./standing.ts";

/**
 * The verbs of the counting screen: one tap is one durable entry, and counts of several phones add up.
 * `day` is the day of incubation on which the tally was opened; the looks of one day belong together.
 */

/** When it was seen; now, unless the keeper says otherwise. */
interface Seen {
  readonly day?: number;
  readonly at?: Date | null;
}

export interface Look extends Seen {
  readonly setting: string;
  readonly lot: string;
  readonly day: number;
  readonly n?: number;
}

/** Seen alive at a candling. */
export function lookLive({ setting, lot, day, n = 1, at }: Look): Promise<Entry> {
  return record("looked", { setting, lot, what: "candled", day, live: n }, seenAt(at));
}

/** Not sure: to be looked at again. */
export function lookUnsure({ setting, lot, day, n = 1, at }: Look): Promise<Entry> {
  return record("looked", { setting, lot, what: "candled", day, unsure: n }, seenAt(at));
}

/** Pipped at a look into the hatcher. */
export function lookPipped({ setting, lot, day, n = 1, at }: Look): Promise<Entry> {
  return record("looked", { setting, lot, what: "hatch", day, pipped: n }, seenAt(at));
}

/** A look into the hatcher that found nothing new; it closes an interval of the hatch window. */
export function lookNone({ setting, lot, day, at }: Look): Promise<Entry> {
  return record("looked", { setting, lot, what: "hatch", day, none: true }, seenAt(at));
}

export interface Take extends Seen {
  /** The lot; or all lots of a setting it may have come from, where the family is not known. */
  readonly lot: string | readonly string[];
  /** The stages the eggs may lie in, in the order in which they are emptied; those of the machines, unless said. */
  readonly from?: readonly string[];
  readonly to: string;
  readonly n?: number;
  readonly why?: NonNullable<Moved["why"]>;
  readonly cause?: string;
  readonly place?: string;
  readonly helped?: boolean;
  readonly weak?: boolean;
  /** The count by hand whose difference this explains. */
  readonly settles?: string;
}

const IN_MACHINES = ["locked", "set"] as const;
const TO_OPEN = ["unhatched", "locked", "set"] as const;

/** Eggs or chicks moved: clear, blood ring, quitter, cracked, hatched, brooded, died. One entry, however many. */
export function take({ lot, from = IN_MACHINES, to, ...about }: Take): Promise<Entry> {
  return moveEach({ lot, from, ...about }, () => [to]);
}

/** Out of the shell and dead: one entry, so that one undo takes back both. */
export function diedHatching(about: Omit<Take, "to">): Promise<Entry> {
  return moveEach({ ...about, why: "hatch" }, () => ["hatched", "died"]);
}

/** A chick out of its egg, from the hatcher or, where none is left there, from the eggs still set. */
export function hatched(about: Omit<Take, "to">): Promise<Entry> {
  return take({ ...about, to: "hatched", why: "hatch" });
}

/**
 * An egg broken open after the hatch. One that still lies in the hatcher did not hatch, which is recorded in the
 * same entry. `day`: how many days the embryo had lived, where the keeper could tell.
 */
export function openEgg({ lot, from = TO_OPEN, to, ...about }: Take): Promise<Entry> {
  return moveEach({ lot, from, ...about, why: "opened" }, (stage) =>
    stage === "locked" || stage === "set" ? ["unhatched", to] : [to],
  );
}

/** Eggs taken out by mistake, or found again, back with the others; into the hatcher where those are there. */
export function putBack({
  into,
  ...about
}: Omit<Take, "to"> & { readonly into: "set" | "locked" }): Promise<Entry> {
  return moveEach(about, () => (into === "locked" ? ["set", "locked"] : ["set"]));
}

/** "Count again": takes back that day's looks of a lot, so that the count starts anew. Moved eggs stay moved. */
export async function countAgain(lot: string, what: "candled" | "hatch", day: number): Promise<void> {
  const looks = standing.value.lots.get(lot)?.looks ?? [];
  // A look that found nothing counted nothing; it still says when the hatch had not begun.
  const counted = looks.filter((look) => look.what === what && look.day === day && !look.none);
  await undo(...counted.map((look) => look.entry));
}

/** A physical count beside the figure this phone shows; a difference becomes a problem to settle. */
export function countedByHand(lot: string, stage: string, n: number): Promise<Entry> {
  const ledger = standing.value.lots.get(lot)?.stages.get(stage) ?? 0;
  return record("counted", { lot, stage, n, ledger });
}

/** Writes one entry that carries eggs from where they lie along the stages of `path`. */
function moveEach(
  { lot, from = IN_MACHINES, n = 1, at, ...about }: Omit<Take, "to">,
  path: (source: string) => readonly string[],
): Promise<Entry> {
  const whose = typeof lot === "string" ? { lot } : { among: [...lot] };
  const moves = partsOf(stagesOf(lot), from, n).flatMap((part) => {
    let source = part.stage;
    return path(part.stage).map((to): LotMove => {
      const move = { ...whose, from: source, to, n: part.n };
      source = to;
      return move;
    });
  });
  return record("moved", { moves, ...about }, seenAt(at));
}

/** n eggs by the stages they lie in. What is more than there is comes from the last, and becomes a problem. */
function partsOf(stages: Stages, from: readonly string[], n: number): { stage: string; n: number }[] {
  const parts: { stage: string; n: number }[] = [];
  let left = n;
  for (const [at, stage] of from.entries()) {
    const last = at === from.length - 1;
    const some = last ? left : Math.min(left, Math.max(0, stages.get(stage) ?? 0));
    if (some > 0) parts.push({ stage, n: some });
    left -= some;
  }
  return parts;
}

/** Where a lot's eggs are; all of its setting's, where the lot is not known. */
function stagesOf(lot: Take["lot"]): Stages {
  const { lots, settings } = standing.value;
  const one = lots.get(typeof lot === "string" ? lot : (lot[0] ?? ""));
  return (typeof lot === "string" ? one : settings.get(one?.setting ?? ""))?.stages ?? new Map();
}

const seenAt = (at: Date | null | undefined): RecordOptions => (at ? { at } : {});
