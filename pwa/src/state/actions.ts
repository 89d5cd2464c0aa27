import type { Bodies, Family, Keeper, Place } from "../book/bodies.generated.ts";
import type { Entry } from "../book/entries.ts";
import { growTrees } from "../book/trees.ts";
import { openDesk } from "./desk.ts";
import { isWhole, whenWhole } from "./held.ts";
import { type Draft, type Kind, recent, write } from "./recording.ts";
import { entries, standing } from "./standing.ts";

/**
 * The verbs of the book. Each puts its entries on the screen at once and resolves when they are durable on this
 * phone; none waits for the network. A verb that needs several entries saves all of them or none.
 */

export interface RecordOptions {
  /** The entry that this one replaces in full. */
  readonly amends?: string;
  readonly void?: boolean;
  /** When it happened; now, unless said otherwise. */
  readonly at?: Date;
}

/** One entry of any kind. */
export async function record<K extends Kind>(
  kind: K,
  body: Bodies[K],
  options: RecordOptions = {},
): Promise<Entry> {
  return last(await write([{ kind, body, ...options } as Draft]));
}

/** Replaces what an entry says, whichever of its corrections stands now. */
export async function amend<K extends Kind>(id: string, kind: K, body: Bodies[K], at?: Date): Promise<Entry> {
  if (!isKnown(id)) await whenWhole();
  const head = headOf(id);
  return record(kind, body, { amends: head?.id ?? id, at: at ?? new Date(head?.at ?? openDesk().now_ms()) });
}

/** Takes entries back, all at once; they stay in the book and may be brought back. */
export async function undo(...ids: readonly string[]): Promise<void> {
  if (!ids.every(isKnown)) await whenWhole();
  const drafts = ids.map((id) => replacement(id, true)).filter((draft) => draft !== null);
  recent.value = recent.value.filter((entry) => !ids.includes(entry.id));
  if (drafts.length > 0) await write(drafts);
}

/** Lets entries that were taken back count again, as they were. */
export async function bringBack(...ids: readonly string[]): Promise<void> {
  if (!ids.every(isKnown)) await whenWhole();
  const drafts = ids.map((id) => replacement(id, false)).filter((draft) => draft !== null);
  if (drafts.length > 0) await write(drafts);
}

/**
 * The same words again, taken back or counting; null where they are that already. A void's body is ignored, and
 * carried all the same so that bringing back needs no search.
 */
function replacement(id: string, taken_back: boolean): Draft | null {
  const head = headOf(id);
  if (!head || head.void === taken_back) return null;
  const { kind, body } = head as unknown as Draft;
  return { kind, body, amends: head.id, void: taken_back, at: new Date(head.at) };
}

/** Whether an entry is in memory with all that amends it: one that was written since the app was opened always is. */
function isKnown(id: string): boolean {
  return isWhole.value || recent.value.some((entry) => entry.id === id);
}

/** What stands now in the tree of corrections that an entry belongs to. Most entries are not corrected: left out. */
function headOf(id: string): Entry | undefined {
  const amended = new Set([id]);
  for (const { amends } of entries.value) if (amends !== null) amended.add(amends);
  const { rootOf, heads } = growTrees(
    entries.value.filter((entry) => entry.amends !== null || amended.has(entry.id)),
  );
  return heads.get(rootOf.get(id) ?? id);
}

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

/** A task of the agenda that has no act of its own. */
export function taskDone(task: string, place?: string, on?: string): Promise<Entry> {
  const day = on ?? new Date(openDesk().now_ms()).toISOString().slice(0, 10);
  return record("care", { task, on: day, ...(place ? { place } : {}) });
}

function last(written: readonly Entry[]): Entry {
  const entry = written.at(-1);
  if (!entry) throw new Error("nothing was written");
  return entry;
}
