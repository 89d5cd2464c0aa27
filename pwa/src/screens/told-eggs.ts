// What the book says of eggs before they are set and of marks: how many, whose, and what became of them.
import { told as words } from "../app/words/book.ts";
import { eggStore } from "../app/words/eggs.ts";
import { tagInWords, websInWords } from "../app/words/marks.ts";
import { regionOf, termsOf } from "../app/words/region.ts";
import type { Entry } from "../book/entries.ts";
import type { Standing } from "../book/standing.ts";
import { patternOf } from "../trade/marks.ts";
import { familyName } from "./names.ts";
import { bodyOf, whoseIn } from "./told-entry.ts";

/** "Rowan: 5 gathered, 4 kept"; null for kinds this does not tell. */
export function eggsHeading(entry: Entry, totals: Standing): string | null {
  if (entry.kind === "gathered") {
    const { family, n = 0, kept = 0 } = bodyOf(entry, "gathered");
    return words.gathered(familyName(totals, family), n, kept);
  }
  if (entry.kind === "eggs_out") {
    const { family, n = 0, how } = bodyOf(entry, "eggs_out");
    return words.eggsOut(familyName(totals, family), n, how ? eggStore.howsAfter[how] : "");
  }
  return entry.kind === "marked" ? marked(entry, totals) : null;
}

/** Of batches; a single bird's mark is told under the bird. */
function marked(entry: Entry, totals: Standing): string | null {
  const { lot, n, webs, tag, recheck } = bodyOf(entry, "marked");
  if (!lot) return null;
  const whose = whoseIn(entry, totals);
  if (recheck) return words.marksSeen(whose, n ?? 0);
  const ring = termsOf(regionOf(totals.keeper.region)).ring;
  const what = [webs?.length ? websInWords(patternOf(webs)) : null, tag ? tagInWords(tag, ring) : null];
  return words.marked(whose, n ?? null, what.filter(Boolean).join("; "));
}
