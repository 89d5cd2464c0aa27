import type { Air, Bodies, GaugeChecked } from "../book/bodies.generated.ts";
import type { Entry } from "../book/entries.ts";
import type { Head } from "../book/standing.ts";
import type { Side } from "../book/turning.ts";
import { record } from "./actions.ts";
import { amend } from "./holding.ts";
import { recent, write } from "./recording.ts";
import { standing } from "./standing.ts";

/** What is done at a machine: each act is one entry, on the screen at once, and can be taken back or dated anew. */

export type QuickAct = "turned" | "watered" | "vented";

/** Eggs turned, water filled, vents changed: one tap. side: the mark that is now up. */
export function done(act: QuickAct, place: string, side?: Side): Promise<Entry> {
  return record(act, side ? { place, side } : { place });
}

/** A reading of the air, °C and percent. id: made beforehand, so that it can be taken back at once. */
export async function readAir(air: Air, id: string, at?: Date): Promise<void> {
  await write([{ kind: "air", body: { ...air, by: "hand" }, id, ...(at ? { at } : {}) }]);
}

/** A gauge held against a trusted one; later readings there are put right by the difference. */
export function checkGauge(check: GaugeChecked, at?: Date): Promise<Entry> {
  return record("gauge_checked", check, at ? { at } : {});
}

/** A tray on the scales, grams. */
export function weighTray(tray: Bodies["eggs_weighed"], at?: Date): Promise<Entry> {
  return record("eggs_weighed", tray, at ? { at } : {});
}

/** The power went away everywhere: a clock begins to run. */
export function powerOff(nowMs: number): Promise<Entry> {
  return record("outage", { from: new Date(nowMs).toISOString() });
}

/** What is known of a power cut changes: since when, where, or that it is over. */
export function changeOutage(id: string, outage: Bodies["outage"]): Promise<Entry> {
  return amend(id, "outage", outage, new Date(outage.from));
}

/** Chicks that are dry go to feed and water; each batch by itself, so that one can be taken back alone. */
export function pullChicks(
  moves: readonly ({ readonly n: number } & ({ readonly lot: string } | { readonly among: string[] }))[],
  where: { readonly place?: string; readonly day: number; readonly at?: Date },
): Promise<Entry> {
  const { place, day, at } = where;
  const body = {
    moves: moves.map((move) => ({ ...move, from: "hatched", to: "brooding" })),
    why: "pulled" as const,
    day: Math.max(0, day),
    ...(place ? { place } : {}),
  };
  return record("moved", body, at ? { at } : {});
}

/** When an act happened, said afterwards. */
export function doneAt<K extends QuickAct | "moved">(
  { root, kind, body }: Head<K>,
  at: Date,
): Promise<Entry> {
  return amend(root, kind, body as Bodies[K], at);
}

/** Turned with the other side up after all. */
export function otherSide({ root, body }: Head<QuickAct>, side: Side): Promise<Entry> {
  return amend(root, "turned", { ...body, side });
}

/** What was done last at a place since the app was opened and was not taken back, of these kinds. */
export function lastDoneAt(place: string, kinds: readonly QuickAct[]): Entry | null {
  const heads = kinds.flatMap((kind): readonly Head[] => standing.value.heads[kind] ?? []);
  const counts = new Set(heads.map((head) => head.root));
  const here = (entry: Entry) => entry.amends === null && entry.body.place === place && counts.has(entry.id);
  return recent.value.filter(here).at(-1) ?? null;
}

/** Whether a thermometer wrote a reading. */
export function isByThermometer(reading: string): boolean {
  const own = (standing.value.heads.air ?? []).find(({ root, id }) => root === reading || id === reading);
  return own?.body.by === "sensor";
}

/** No alarm of the air there before `until`: the server reads it as it reads any entry. */
export function silenceAir(place: string, until: Date): Promise<Entry> {
  return record("care", { task: "air", place, on: until.toISOString() });
}

/** Until when the alarm of the air there is silenced; null where it is not. */
export function airSilencedUntil(place: string, now_ms: number): number | null {
  const { heads, rootOf } = standing.value;
  const ends = (heads.care ?? [])
    .filter(
      ({ body }) => body.task === "air" && (!body.place || (rootOf.get(body.place) ?? body.place) === place),
    )
    .map(({ body }) => (body.on.length > 10 ? Date.parse(body.on) : 0))
    .filter((end) => end > now_ms);
  return ends.length === 0 ? null : Math.max(...ends);
}
