import type { Entry } from "../book/entries.ts";
import type { Head } from "../book/standing.ts";
import { record } from "./actions.ts";
import { amend } from "./holding.ts";
import { recent } from "./recording.ts";
import { standing } from "./standing.ts";

/** What a brood asks for: each act is one entry, on the screen at once, and can be taken back or dated anew. */

const KINDS = ["brooder_check", "care"] as const;
type Kind = (typeof KINDS)[number];

/** A task done: the round that says so where there is one, else a care. today: the date in the holding's zone. */
export function choreDone(task: string, place: string, today: string): Promise<Entry> {
  if (task === "water") return record("brooder_check", { place, water: true });
  if (task === "litter") return record("brooder_check", { place, litter: true });
  return record("care", { task, ...(place ? { place } : {}), on: today });
}

/** Water, feed and litter seen to, in one tap. */
export function roundDone(place: string): Promise<Entry> {
  return record("brooder_check", { place, water: true, feed: true, litter: true });
}

/** What the chicks look like. */
export function sawChicks(place: string, look: "spread" | "huddled" | "away" | "one_side"): Promise<Entry> {
  return record("brooder_check", { place, look });
}

/** The warmth at the height of their backs, °C. */
export function readHeat(place: string, heat_c: number, at?: Date): Promise<Entry> {
  return record("brooder_check", { place, heat_c }, at ? { at } : {});
}

/** Not asked again before the day after `until`. */
export function putOff(task: string, place: string, until: string): Promise<Entry> {
  return record("care", { task, place, on: until });
}

/** What was done last since the app was opened and was not taken back; at one place, or anywhere. */
export function lastChore(place?: string): Head<Kind> | null {
  const heads = KINDS.flatMap((kind): readonly Head<Kind>[] => standing.value.heads[kind] ?? []);
  const counts = new Map(heads.map((head) => [head.root, head]));
  const here = (entry: Entry) =>
    entry.amends === null && counts.has(entry.id) && (place === undefined || entry.body.place === place);
  const last = recent.value.filter(here).at(-1);
  return last === undefined ? null : (counts.get(last.id) ?? null);
}

/** When it was done, said afterwards. on: that date in the holding's zone. */
export function choreAt({ root, kind, body }: Head<Kind>, at: Date, on: string): Promise<Entry> {
  return kind === "care"
    ? amend(root, "care", { ...(body as Head<"care">["body"]), on }, at)
    : amend(root, "brooder_check", body as Head<"brooder_check">["body"], at);
}
