/**
 * Chicks that left the basket without a mark. Mirrors server/broodline/book/marks.py over tests/vectors/fold.json.
 */
import { type Book, familyWords, isAstray } from "./checks.ts";
import { type Problem, problem } from "./problems.ts";
import { type Heads, inStage, type Lot } from "./standing.ts";

/** Chicks of a lot that are alive and here. */
export function living(lot: Lot): number {
  return ["hatched", "brooding", "growing", "flock"].reduce(
    (sum, stage) => sum + Math.max(0, inStage(lot, stage)),
    0,
  );
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
 * chick reads as one that nobody marked. Where no chick of a hatch is marked nothing is said.
 */
export function checkMarks(book: Book): Problem[] {
  const { heads, lots } = book;
  const found: Problem[] = [];
  const last = new Map<string, string>();
  for (const { id, body } of heads.marked ?? []) {
    if (!body.lot) continue;
    const lot = lots.get(body.lot);
    if (lot === undefined || isAstray(lot)) found.push(problem("lot_without_setting", id));
    else if (id > (last.get(hatchOf(lot)) ?? "")) last.set(hatchOf(lot), id);
  }
  for (const lot of lots.values()) {
    const entry = last.get(hatchOf(lot));
    if (!entry) continue;
    const n = unmarked(lot, heads);
    const inBasket = ["set", "locked", "hatched"].some((stage) => inStage(lot, stage) > 0);
    if (n > 0 && !inBasket)
      found.push(problem("unmarked_chicks", entry, { n, family: familyWords(book, [lot]) }));
  }
  return found;
}

/** What hatched together: a setting, or a lot that came. */
function hatchOf(lot: Lot): string {
  return lot.setting ?? lot.id;
}
