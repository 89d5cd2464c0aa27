// What was written of birds and chicks, as a line of the book.
import { coming, leaving } from "../app/words/birds.ts";
import { causeWords } from "../app/words/losses.ts";
import { toldBirds as words } from "../app/words/told-birds.ts";
import { birdId, birdsOf, type OneBird } from "../book/birds.ts";
import type { Entry } from "../book/entries.ts";
import type { Standing } from "../book/standing.ts";
import { sexOf } from "./bird-view.ts";
import { treatedWho } from "./held-back.tsx";
import { massUnit } from "./measures.ts";
import { batchName, familyName } from "./names.ts";
import { birdMassText } from "./scale-words.ts";
import { bodyOf } from "./told-entry.ts";

/** The birds of one standing, joined once: the book has a line for each of thousands of entries. */
const known = new WeakMap<Standing, ReadonlyMap<string, OneBird>>();

function named(totals: Standing): ReadonlyMap<string, OneBird> {
  const birds = known.get(totals) ?? birdsOf(totals, null);
  known.set(totals, birds);
  return birds;
}

/** The heading of an entry about birds; null for other kinds, and for a body that lacks what it tells of. */
export function birdHeading(entry: Entry, totals: Standing): string | null {
  const nameOf = (bird: string | null | undefined) =>
    named(totals).get(birdId(totals, bird ?? ""))?.label ?? "–";
  switch (entry.kind) {
    case "bird": {
      const bird = named(totals).get(birdId(totals, entry.id));
      return bird ? words.bird(bird.label, sexOf(totals, bird)) : null;
    }
    case "came": {
      const { bird, n = 0, family, how, from } = bodyOf(entry, "came");
      if (!how) return null;
      const who = bird ? nameOf(bird) : words.young(n ?? 0, familyName(totals, rootOf(totals, family)));
      if (how === "returned") return words.back(who);
      return words.came(who, coming.hows[how]?.toLowerCase() ?? "", from ?? "");
    }
    case "left": {
      const { bird, how, to, cause } = bodyOf(entry, "left");
      if (!how) return null;
      const why = cause ? causeWords(cause) : "";
      return words.left(nameOf(bird), leaving.hows[how]?.toLowerCase() ?? "", to ?? why);
    }
    case "weighed": {
      const { birds, lot } = bodyOf(entry, "weighed");
      if (!Array.isArray(birds) || birds.length === 0) return null;
      const [first] = birds;
      const mean = birds.reduce((sum, one) => sum + one.mass_g, 0) / birds.length;
      const mass = birdMassText(mean, massUnit(totals));
      const batch = batchName(totals, totals.lots.get(lot ?? ""));
      if (birds.length > 1) return words.many(birds.length, batch, mass);
      return words.weighed(first?.bird ? nameOf(first.bird) : words.oneOf(batch), mass);
    }
    case "treated": {
      const body = bodyOf(entry, "treated");
      return body.product
        ? words.treated(treatedWho(totals, { from: "", product: "", ...body }), body.product)
        : null;
    }
    case "order": {
      const { text } = bodyOf(entry, "order");
      return text ? words.order(text) : null;
    }
    case "note": {
      const { text } = bodyOf(entry, "note");
      return text ? words.note(text) : null;
    }
    default:
      return null;
  }
}

const rootOf = (totals: Standing, name: string | null | undefined) =>
  name ? (totals.rootOf.get(name) ?? name) : null;
