// What a pen is called: its place, or its family where no place is said. Pure.
import { pens as words } from "../app/words/pens.ts";
import type { PenStay } from "../book/pen-stays.ts";
import type { Standing } from "../book/standing.ts";
import { familyName, placeName } from "./names.ts";

export function penName(standing: Standing, { place, family }: Pick<PenStay, "place" | "family">): string {
  const own = words.pen(familyName(standing, family));
  return place ? `${own}, ${placeName(standing, place)}` : own;
}
