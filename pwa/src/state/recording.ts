import { batch, signal } from "@preact/signals";
import type { Bodies } from "../book/bodies.generated.ts";
import { type Entry, parseEntry } from "../book/entries.ts";
import { canonical, EnvelopeFault } from "../book/wire.ts";
import { type NotSavedCode, notSaved } from "../storage/not-saved.ts";
import { onPhone } from "./book-clock.ts";
import { type Desk, desk, openDesk } from "./desk.ts";
import { holdUnsaved, unsavedEntries } from "./held.ts";

export type Kind = keyof Bodies;

export interface Draft<K extends Kind = Kind> {
  readonly kind: K;
  readonly body: Bodies[K];
  /** Made beforehand, where another entry of the same act names it. */
  readonly id?: string;
  readonly amends?: string | null;
  readonly void?: boolean;
  /** When it happened, by the book's clock; now, unless the keeper said otherwise. */
  readonly at?: Date;
}

/** Text too long, or a number out of range: shown to the keeper, nothing was recorded. */
export class NotRecorded extends Error {}

const RETRY_MS = 3000;

/** Why entries on the screen are not saved yet; null while all is well. */
export const savingFault = signal<NotSavedCode | null>(null);

/** What was written since the book was opened, newest last, without what was taken back: for Undo. */
export const recent = signal<readonly Entry[]>([]);

const MOST_RECENT = 200;

/**
 * Puts entries on the screen at once and resolves when they are durable, all together or none. Where storage
 * fails they stay on the screen, go into the lifeboat and are tried again until they are saved; the promise
 * waits as long. Rejects only with NotRecorded.
 */
export function write(drafts: readonly Draft[]): Promise<Entry[]> {
  const opened = openDesk();
  let entries: Entry[];
  try {
    entries = drafts.map((draft) => entryOf(opened, draft));
  } catch (fault) {
    return Promise.reject(fault);
  }
  batch(() => {
    holdUnsaved(entries);
    recent.value = [...recent.value, ...entries.filter((entry) => !entry.void)].slice(-MOST_RECENT);
  });
  return save(opened, entries).then(() => entries);
}

/**
 * What an act puts on the screen, at once: a form closes and offers Undo without waiting until it is durable, which on a
 * full phone may take long. Empty where nothing could be recorded: then the form stays as it was filled in.
 */
export function onScreen(act: () => Promise<unknown>): readonly Entry[] {
  const before = new Set(recent.value);
  void act();
  return recent.value.filter((entry) => !before.has(entry));
}

function entryOf(opened: Desk, draft: Draft): Entry {
  const skew_ms = opened.skew_ms();
  const entry: Entry = {
    id: draft.id ?? opened.ids.next(),
    v: 1,
    kind: draft.kind,
    device: opened.card.device,
    at: (draft.at ? onPhone(draft.at, skew_ms) : new Date(opened.now_ms())).toISOString(),
    zone: opened.zone(),
    skew_ms,
    amends: draft.amends ?? null,
    void: draft.void ?? false,
    body: filled(draft.body),
  };
  const checked = parseEntry(entry);
  if (checked instanceof EnvelopeFault) throw new NotRecorded(checked.message, { cause: checked });
  // In canonical order, as storage gives it back: the same entry is then known again as the same.
  return JSON.parse(canonical(checked)) as Entry;
}

/** Fields left open are left out, at every depth, as if they had never been asked. */
function filled(body: Bodies[Kind]): Entry["body"] {
  const isOpen = (value: unknown) => value === undefined || value === null;
  return JSON.parse(JSON.stringify(body, (_, value: unknown) => (isOpen(value) ? undefined : value)));
}

/**
 * The page goes away, perhaps for good: a save that is under way ends with it. What is not durable yet goes into the
 * lifeboat at once; landing there twice does no harm.
 */
export function boardUnsaved(): void {
  for (const entry of unsavedEntries()) desk.value?.lifeboat.take(entry);
}

async function save(opened: Desk, entries: readonly Entry[]): Promise<void> {
  for (;;) {
    try {
      await opened.storage.append(entries);
      break;
    } catch (fault) {
      savingFault.value = notSaved(fault).code;
      for (const entry of entries) opened.lifeboat.take(entry);
    }
    await new Promise((resolve) => setTimeout(resolve, RETRY_MS));
  }
  for (const entry of entries) opened.lifeboat.release(entry.id);
  if (unsavedEntries().length === 0) savingFault.value = null;
  opened.askToKeep();
  desk.value?.sync?.ask("saved"); // of the desk as it is now: pairing may have put another sync on it
}
