import { batch, type ReadonlySignal, signal } from "@preact/signals";
import type { Entry } from "../book/entries.ts";
import type { Refusal, StoredEntry } from "../storage/port.ts";

/**
 * An entry in memory. `saved` is false from the tap until storage said that it is durable; `position` is null
 * until the server showed it; `aside` holds the words of a server that will not take it.
 */
export interface HeldEntry {
  readonly entry: Entry;
  readonly saved: boolean;
  readonly position: number | null;
  readonly aside: Refusal | null;
}

/** The book in memory. `entries` and its parts are one growing map each; a new object says that they changed. */
export interface HeldBook {
  readonly entries: ReadonlyMap<string, HeldEntry>;
  /** Those without a place, for counting what is only on this phone. */
  readonly onlyHere: ReadonlyMap<string, HeldEntry>;
  /** Those of them that are on the screen and not yet durable. */
  readonly unsaved: ReadonlyMap<string, HeldEntry>;
}

/**
 * What is written, whatever became of it: changes with the set of entries alone, not with their places. `taps` are
 * the entries of this page since the rest was read, oldest first; within one `reading` they only grow.
 */
export interface WrittenBook {
  readonly entries: ReadonlyMap<string, HeldEntry>;
  readonly reading: number;
  readonly taps: readonly Entry[];
}

let entries = new Map<string, HeldEntry>();
let onlyHere = new Map<string, HeldEntry>();
let unsaved = new Map<string, HeldEntry>();
let taps: Entry[] = [];
let reading = 0;

const book = signal<HeldBook>({ entries, onlyHere, unsaved });
const words = signal<WrittenBook>({ entries, reading, taps });

export const held: ReadonlySignal<HeldBook> = book;
export const written: ReadonlySignal<WrittenBook> = words;

/** Another book lies open: everything of the last one leaves the memory. */
export function holdAll(rows: readonly StoredEntry[], tapped: readonly Entry[]): void {
  entries = new Map();
  onlyHere = new Map();
  unsaved = new Map();
  for (const row of rows) put(fromStorage(row));
  for (const entry of tapped) if (!entries.has(entry.id)) put(notYetSaved(entry));
  show("read anew");
}

/** New entries of this page, on the screen before they are saved. */
export function holdUnsaved(tapped: readonly Entry[]): void {
  for (const entry of tapped) put(notYetSaved(entry));
  taps = [...taps, ...tapped];
  show("tapped");
}

/** What storage says about these entries now: for known ones only whether they are saved and where they stand. */
export function holdStored(rows: readonly StoredEntry[]): void {
  if (rows.length === 0) return;
  let isNews = false;
  for (const row of rows) {
    const before = entries.get(row.id)?.entry;
    const now = fromStorage(row);
    put(now);
    if (now.entry !== before) isNews = true;
  }
  show(isNews ? "read anew" : "same words");
}

/** Entries that are on the screen only. */
export function unsavedEntries(): Entry[] {
  return [...unsaved.values()].map((one) => one.entry);
}

function fromStorage(row: StoredEntry): HeldEntry {
  return { entry: asKnown(row.entry), saved: true, position: row.position, aside: row.aside };
}

/** The same object for the same entry, also when only its place changed: the fold reads each object once. */
function asKnown(entry: Entry): Entry {
  const known = entries.get(entry.id)?.entry;
  return known && JSON.stringify(known) === JSON.stringify(entry) ? known : entry;
}

function notYetSaved(entry: Entry): HeldEntry {
  return { entry, saved: false, position: null, aside: null };
}

function put(one: HeldEntry): void {
  entries.set(one.entry.id, one);
  if (one.position === null) onlyHere.set(one.entry.id, one);
  else onlyHere.delete(one.entry.id);
  if (one.saved) unsaved.delete(one.entry.id);
  else unsaved.set(one.entry.id, one);
}

function show(change: "read anew" | "tapped" | "same words"): void {
  batch(() => {
    book.value = { entries, onlyHere, unsaved };
    if (change === "same words") return;
    if (change === "read anew") {
      reading += 1;
      taps = [];
    }
    words.value = { entries, reading, taps };
  });
}
