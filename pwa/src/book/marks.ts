/**
 * Chicks that left the basket without a mark. Mirrors server/broodline/book/marks.py over tests/vectors/fold.json.
 */
import { type Book, familyWords, isAstray } from "./checks.ts";
import { type Problem, problem } from "./problems.ts";
import { MISSING } from "./stages.ts";
import { type Heads, inStage, type Lot, type Move } from "./standing.ts";

const LIVING = ["hatched", "brooding", "growing", "flock"];

/** Chicks of a lot that are alive and here. */
export function living(lot: Lot): number {
  return LIVING.reduce((sum, stage) => sum + Math.max(0, inStage(lot, stage)), 0);
}

/** Living chicks of a lot beyond those that were marked: a second look and a mark changed for another mark nobody new. */
export function unmarked(lot: Lot, { marked }: Heads): number {
  const alive = living(lot);
  return (marked ?? [])
    .filter(({ body }) => body.lot === lot.id && !body.recheck && !body.replaces)
    .reduce((left, { body }) => left - (body.n ?? alive), alive);
}

/**
 * Chicks without a mark, out of the basket, where others of their hatch are marked; marks of unknown chicks. A missed
 * chick reads as one that nobody marked. Where no chick of a hatch is marked nothing is said. The dead may have been the
 * unmarked ones; of those whose family nobody knows, all they may have been of are told together.
 */
export function checkMarks(book: Book): Problem[] {
  const { heads, lots, settings } = book;
  const found: Problem[] = [];
  const last = new Map<string, string>();
  for (const { id, body } of heads.marked ?? []) {
    if (!body.lot) continue;
    const lot = lots.get(body.lot);
    if (lot === undefined || isAstray(lot)) found.push(problem("lot_without_setting", id));
    else if (id > (last.get(hatchOf(lot)) ?? "")) last.set(hatchOf(lot), id);
  }
  for (const [hatch, entry] of last) {
    const { among = [], lots: own = [hatch] } = settings.get(hatch) ?? {};
    const tell = (some: readonly Lot[], gone: number) => {
      const n = some.reduce((sum, lot) => sum + Math.max(0, unmarked(lot, heads)), -Math.max(0, gone));
      if (n > 0) found.push(problem("unmarked_chicks", entry, { n, family: familyWords(book, some) }));
    };
    const unsure: Lot[] = [];
    for (const lot of own.flatMap((name) => lots.get(name) ?? [])) {
      const inBasket = ["set", "locked", "hatched"].some((stage) => inStage(lot, stage) > 0);
      if (inBasket || unmarked(lot, heads) <= 0) continue;
      if (among.some((move) => leftAlive(move) > 0 && move.among.includes(lot.id))) unsure.push(lot);
      else tell([lot], 0);
    }
    tell(
      unsure,
      among.reduce((sum, move) => sum + leftAlive(move), 0),
    );
  }
  return found;
}

/** How many living chicks a move takes away; less than nothing where missing ones are found again. */
function leftAlive({ source, target, n }: Move): number {
  // What is found and put into hatched may have been an egg.
  if (LIVING.includes(target)) return source === MISSING && target !== "hatched" ? -n : 0;
  return LIVING.includes(source) ? n : 0;
}

/** What hatched together: a setting, or a lot that came. */
function hatchOf(lot: Lot): string {
  return lot.setting ?? lot.id;
}
