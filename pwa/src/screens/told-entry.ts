// What an entry counted, in the keeper's words. The codes of the book are never shown.
import { listed } from "../app/words/everywhere.ts";
import { regionOf } from "../app/words/region.ts";
import { stageWords } from "../app/words/stages.ts";
import { parts, tally } from "../app/words/tally.ts";
import type { Bodies, LotMove } from "../book/bodies.generated.ts";
import type { Entry } from "../book/entries.ts";
import { NOT_WRITTEN } from "../book/stages.ts";
import type { Standing } from "../book/standing.ts";
import { standing } from "../state/standing.ts";
import { familyName, unknownFamily } from "./names.ts";

/** The body of an entry of a kind this app reads. It was checked when it was folded; odd ones become problems. */
export const bodyOf = <K extends keyof Bodies>(entry: Entry, _kind: K) =>
  entry.body as unknown as Partial<Bodies[K]>;

/** The batches an entry is about. */
export function lotsIn(entry: Entry): string[] {
  if (entry.kind === "moved") {
    const moves = bodyOf(entry, "moved").moves;
    return Array.isArray(moves) ? moves.flatMap((move) => move.lot ?? move.among ?? []) : [];
  }
  const lot = entry.body.lot;
  return typeof lot === "string" ? [lot] : [];
}

export interface Part {
  readonly whose: string;
  /** 0 where a look found nothing new. */
  readonly n: number;
  readonly what: string;
}

/** What was counted, family by family. */
export function partsIn(entry: Entry, totals: Standing): Part[] {
  const region = regionOf(totals.keeper.region);
  const after = (code: string) => stageWords(code, region).after;
  const nameOf = (lot: string | null | undefined) =>
    lot ? familyName(totals, totals.lots.get(lot)?.family) : unknownFamily(totals);
  if (entry.kind === "looked") {
    const body = bodyOf(entry, "looked");
    const whose = nameOf(body.lot);
    if (body.none) return [{ whose, n: 0, what: parts.lookNone }];
    return (["live", "unsure", "pipped"] as const)
      .filter((sees) => (body[sees] ?? 0) > 0)
      .map((sees) => ({ whose, n: body[sees] ?? 0, what: after(sees) }));
  }
  if (entry.kind !== "moved") return [];
  const body = bodyOf(entry, "moved");
  const mark = body.helped ? parts.helped : body.weak ? parts.weak : null;
  const whatOf = (to: string) => {
    if (body.cause === NOT_WRITTEN) return parts.notWritten;
    if (to === "set") return parts.back;
    return to === "hatched" && mark ? `${after(to)}, ${mark}` : after(to);
  };
  return arrivals(Array.isArray(body.moves) ? body.moves : []).map(({ lot, to, n }) => ({
    whose: nameOf(lot),
    n,
    what: whatOf(to),
  }));
}

interface Arrival {
  readonly lot: string | null;
  readonly to: string;
  readonly n: number;
}

/** Where eggs of each batch came to rest by an entry: what only passed through a stage is not parts. */
function arrivals(moves: readonly LotMove[]): Arrival[] {
  const nets = new Map<string, { lot: string | null; to: string; n: number }>();
  const add = (lot: string | null, to: string, n: number) => {
    const key = `${lot} ${to}`;
    nets.set(key, { lot, to, n: (nets.get(key)?.n ?? 0) + n });
  };
  for (const { lot = null, from, to, n } of moves) {
    add(lot, from, -n);
    add(lot, to, n);
  }
  return [...nets.values()].filter(({ n }) => n > 0);
}

/** "8 live, 1 clear": parts of the same kind added up. */
export function addUp(counted: readonly Part[]): string {
  const sums = new Map<string, number>();
  for (const { n, what } of counted) sums.set(what, (sums.get(what) ?? 0) + n);
  return [...sums].map(([what, n]) => (n === 0 ? what : parts.part(n, what))).join(", ");
}

/** "1 clear": for Undo and for one line of a tally. */
export function answersIn(entry: Entry): string {
  if (entry.kind === "counted") return tally.again;
  if (entry.kind === "locked") return parts.locked;
  return addUp(partsIn(entry, standing.value));
}

/** Whose eggs an entry is about, by family. */
export function whoseIn(entry: Entry, { lots, families, keeper }: Standing): string {
  const moves = entry.kind === "moved" ? bodyOf(entry, "moved").moves : null;
  if (Array.isArray(moves) && moves.some((move) => !move.lot)) return unknownFamily({ keeper });
  const names = lotsIn(entry).map((lot) =>
    familyName({ families, keeper } as Standing, lots.get(lot)?.family),
  );
  return listed([...new Set(names)]);
}
