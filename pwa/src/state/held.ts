import { batch, computed, type ReadonlySignal, signal } from "@preact/signals";
import type { Entry } from "../book/entries.ts";
import type { Standing } from "../book/standing.ts";
import type { KeptStart, Refusal, StoredEntry } from "../storage/port.ts";

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
  /** How many entries the book has, also while not all of them are in memory. */
  readonly n: number;
}

/**
 * What is written, whatever became of it: changes with the set of entries alone, not with their places. `sum` is what
 * the book added up to at this `reading`, where that is known without a fold; `news` are the entries that came since,
 * oldest first; within one reading they only grow. `whole`: every entry of the book is in `entries`.
 */
export interface WrittenBook {
  readonly entries: ReadonlyMap<string, HeldEntry>;
  readonly reading: number;
  readonly sum: Standing | null;
  readonly news: readonly Entry[];
  readonly whole: boolean;
}

let entries = new Map<string, HeldEntry>();
let onlyHere = new Map<string, HeldEntry>();
let unsaved = new Map<string, HeldEntry>();
let more = 0; // in the book, not in memory yet
let pagesMissing = false;
let reading = 0;
let sum: Standing | null = null;
let news: Entry[] = [];
let whole = true;

const book = signal<HeldBook>({ entries, onlyHere, unsaved, n: 0 });
const words = signal<WrittenBook>({ entries, reading, sum, news, whole });

export const held: ReadonlySignal<HeldBook> = book;
export const written: ReadonlySignal<WrittenBook> = words;
/** Whether nothing of the open book was on this phone when it was laid open. */
export const beganEmpty = signal(false);
/** False while the book is still being read: until then what it adds up to is known, and not every entry. */
export const isWhole: ReadonlySignal<boolean> = computed(() => words.value.whole);

export async function whenWhole(): Promise<void> {
  if (isWhole.value) return;
  let stop = () => {};
  await new Promise<void>((done) => {
    stop = isWhole.subscribe((now) => now && done());
  });
  stop();
}

/** Another book lies open: everything of the last one leaves the memory. */
export function holdAll(rows: readonly StoredEntry[], tapped: readonly Entry[]): void {
  empty();
  for (const row of rows) put(fromStorage(row));
  for (const entry of tapped) if (!entries.has(entry.id)) put(notYetSaved(entry));
  beganEmpty.value = entries.size === 0;
  readAnew(null);
}

/**
 * Another book lies open, as it was added up earlier. Its other entries are still to be read, by `holdPage`; until
 * then nobody can tell an entry that is new to the book from one that is not in memory yet.
 */
export function holdSum(earlier: Standing, { since, here, n }: KeptStart, tapped: readonly Entry[]): void {
  empty();
  beganEmpty.value = false;
  for (const row of [...here, ...since]) put(fromStorage(row));
  more = n - entries.size;
  [whole, pagesMissing] = [false, true];
  const aboard = tapped.filter((entry) => !entries.has(entry.id));
  for (const entry of aboard) put(notYetSaved(entry));
  readAnew(earlier, aboard);
}

/** Entries on their way into memory. One that is known already is known better: it was told of since. */
export function holdPage(rows: readonly StoredEntry[], isLast: boolean): Entry[] {
  const added = rows.filter((row) => !entries.has(row.id)).map(fromStorage);
  for (const one of added) put(one);
  more -= added.length;
  pagesMissing = !isLast;
  return added.map((one) => one.entry);
}

/** What all the entries in memory add up to from nothing; false where others took their place meanwhile. */
export function holdWhole(from: WrittenBook, all: Standing): boolean {
  if (from.reading !== reading) return false;
  more = 0;
  whole = true;
  readAnew(all, news.slice(from.news.length));
  return true;
}

/** New entries of this page, on the screen before they are saved. */
export function holdUnsaved(tapped: readonly Entry[]): void {
  for (const entry of tapped) put(notYetSaved(entry));
  news = [...news, ...tapped];
  show();
}

/** What storage says about these entries now: for known ones only whether they are saved and where they stand. */
export function holdStored(rows: readonly StoredEntry[]): void {
  if (rows.length === 0) return;
  const added: Entry[] = [];
  let isReplaced = false;
  for (const row of rows) {
    const before = entries.get(row.id)?.entry;
    const now = fromStorage(row);
    put(now);
    if (before === undefined) added.push(now.entry);
    else if (now.entry !== before) isReplaced = true;
  }
  if (isReplaced) readAnew(null);
  else {
    if (added.length > 0 && !pagesMissing) news = [...news, ...added];
    show();
  }
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

function empty(): void {
  entries = new Map();
  onlyHere = new Map();
  unsaved = new Map();
  more = 0;
  [whole, pagesMissing] = [true, false];
}

function readAnew(known: Standing | null, since: Entry[] = []): void {
  reading += 1;
  sum = known;
  news = since;
  show();
}

function show(): void {
  batch(() => {
    book.value = { entries, onlyHere, unsaved, n: entries.size + more };
    const now = words.value;
    if (now.reading === reading && now.news === news) return;
    words.value = { entries, reading, sum, news, whole };
  });
}
