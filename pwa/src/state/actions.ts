import type { Bodies } from "../book/bodies.generated.ts";
import type { Entry } from "../book/entries.ts";
import { happenedMs } from "../book/moments.ts";
import { growTrees } from "../book/trees.ts";
import { isWhole, whenWhole } from "./held.ts";
import { type Draft, type Kind, recent, write } from "./recording.ts";
import { entries } from "./standing.ts";

/**
 * The verbs of the book. Each puts its entries on the screen at once and resolves when they are durable on this
 * phone; none waits for the network. A verb that needs several entries saves all of them or none.
 */

export interface RecordOptions {
  /** The entry that this one replaces in full. */
  readonly amends?: string;
  readonly void?: boolean;
  /** When it happened, by the book's clock; now, unless said otherwise. */
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

/** Takes entries back, all at once; they stay in the book and may be brought back. */
export async function undo(...ids: readonly string[]): Promise<void> {
  if (!ids.every(isKnown)) await whenWhole();
  const drafts = ids.map((id) => replacement(id, true)).filter((draft) => draft !== null);
  recent.value = recent.value.filter((entry) => !ids.includes(entry.id));
  if (drafts.length > 0) await write(drafts);
}

/**
 * The same words again, taken back or counting; null where they are that already. A void's body is ignored, and
 * carried all the same so that bringing back needs no search.
 */
export function replacement(id: string, taken_back: boolean): Draft | null {
  const head = headOf(id);
  if (!head || head.void === taken_back) return null;
  const { kind, body } = head as unknown as Draft;
  return { kind, body, amends: head.id, void: taken_back, at: happenedAt(head) };
}

/** When an entry happened, by the book's clock. */
export function happenedAt({ at, skew_ms }: Entry): Date {
  return new Date(happenedMs(at, skew_ms));
}

/** Whether an entry is in memory with all that amends it: one that was written since the app was opened always is. */
export function isKnown(id: string): boolean {
  return isWhole.value || recent.value.some((entry) => entry.id === id);
}

/** What stands now in the tree of corrections that an entry belongs to. Most entries are not corrected: left out. */
export function headOf(id: string): Entry | undefined {
  const amended = new Set([id]);
  for (const { amends } of entries.value) if (amends !== null) amended.add(amends);
  const { rootOf, heads } = growTrees(
    entries.value.filter((entry) => entry.amends !== null || amended.has(entry.id)),
  );
  return heads.get(rootOf.get(id) ?? id);
}

function last(written: readonly Entry[]): Entry {
  const entry = written.at(-1);
  if (!entry) throw new Error("nothing was written");
  return entry;
}
