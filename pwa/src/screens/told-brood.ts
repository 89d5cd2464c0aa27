// Rounds and tasks of a brooder as the book tells them.
import { chores, choreWords } from "../app/words/chores.ts";
import { heat } from "../app/words/heat.ts";
import type { Bodies } from "../book/bodies.generated.ts";
import { dayNumber } from "../book/moments.ts";
import type { Standing } from "../book/standing.ts";
import { localDate } from "../trade/calendar.ts";
import { temperatureText, temperatureUnit } from "./measures.ts";
import { weekdayTold } from "./told-day.ts";

/** "Drinkers cleaned", or until when it is not asked; null for a task that is no brood's. */
export function careWords({ task, on }: Bodies["care"], atMs: number, zone: string): string | null {
  const words = choreWords(task);
  if (words === undefined) return null;
  const isAhead = dayNumber(on) !== null && on > localDate(atMs, zone);
  return isAhead ? chores.silencedUntil(words.what, weekdayTold(on)) : words.done;
}

/** "Round: water, litter", "Huddled", "31.5 °C at their backs". */
export function checkWords(check: Bodies["brooder_check"], totals: Standing): string {
  const parts = (["water", "feed", "litter"] as const)
    .filter((part) => check[part])
    .map((part) => chores.parts[part]);
  const told = [
    parts.length > 0 ? chores.roundWas(parts.join(", ")) : null,
    check.look ? heat.looks[check.look] : null,
    typeof check.heat_c === "number"
      ? heat.read(temperatureText(check.heat_c, temperatureUnit(totals)))
      : null,
  ];
  return told.filter(Boolean).join(". ") || chores.looked;
}
