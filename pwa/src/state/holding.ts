import type { Bodies, Family, Keeper, Place } from "../book/bodies.generated.ts";
import type { Entry } from "../book/entries.ts";
import { happenedAt, headOf, isKnown, record, replacement } from "./actions.ts";
import { whenWhole } from "./held.ts";
import { type Draft, type Kind, write } from "./recording.ts";
import { standing } from "./standing.ts";

/** The verbs of setting up and keeping a holding: none of them is needed to count eggs. */

/** The holding's words and units: the one keeper entry, amended when it changes. */
export function nameKeeper(body: Keeper): Promise<Entry> {
  const head = standing.value.heads.keeper?.at(-1);
  return head ? amend(head.id, "keeper", body) : record("keeper", body);
}

/** The holding, its first machine and its families: all of it or nothing. */
export function beginBook(keeper: Keeper, place: Place, families: readonly Family[]): Promise<Entry[]> {
  const head = standing.value.heads.keeper?.at(-1);
  return write([
    { kind: "keeper", body: keeper, amends: head?.id ?? null },
    { kind: "place", body: place },
    ...families.map((body): Draft => ({ kind: "family", body })),
  ]);
}

/** An incubator, hatcher, brooder, pen, store, hen or place apart. The entry's id is the place's. */
export function addPlace(body: Place): Promise<Entry> {
  return record("place", body);
}

/** A breeding group kept as a line. The entry's id is the family's. */
export function nameFamily(body: Family): Promise<Entry> {
  return record("family", body);
}

/** A task of the agenda that has no act of its own, done on a day (YYYY-MM-DD). */
export function taskDone(task: string, on: string, place?: string): Promise<Entry> {
  return record("care", { task, on, ...(place ? { place } : {}) });
}

/** Replaces what an entry says, whichever of its corrections stands now. */
export async function amend<K extends Kind>(id: string, kind: K, body: Bodies[K], at?: Date): Promise<Entry> {
  if (!isKnown(id)) await whenWhole();
  const head = headOf(id);
  const when = at ?? (head && happenedAt(head));
  return record(kind, body, { amends: head?.id ?? id, ...(when ? { at: when } : {}) });
}

/** Lets entries that were taken back count again, as they were. */
export async function bringBack(...ids: readonly string[]): Promise<void> {
  if (!ids.every(isKnown)) await whenWhole();
  const drafts = ids.map((id) => replacement(id, false)).filter((draft) => draft !== null);
  if (drafts.length > 0) await write(drafts);
}

/**
 * Lockdown done: turning stopped and the eggs that are still in hand moved, each lot by itself, so that one lot's
 * move can be taken back without the others'.
 */
export function lockDown(setting: string, place?: string, at?: Date): Promise<Entry[]> {
  const when = at ? { at } : {};
  const drafts: Draft[] = [{ kind: "locked", body: { setting, ...(place ? { place } : {}) }, ...when }];
  for (const lot of standing.value.settings.get(setting)?.lots ?? []) {
    const n = standing.value.lots.get(lot)?.stages.get("set") ?? 0;
    if (n <= 0) continue;
    const moves = [{ lot, from: "set", to: "locked", n }];
    drafts.push({ kind: "moved", body: { moves, why: "lockdown", ...(place ? { place } : {}) }, ...when });
  }
  return write(drafts);
}
