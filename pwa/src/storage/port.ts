import type { Entry } from "../book/entries.ts";

/** Words of a server that will not take an entry; the entry stays on this phone and is shown with them. */
export interface Refusal {
  readonly code: string;
  readonly message: string;
  readonly remedy: string;
  /** The request as a whole was not understood; no entry in it is at fault. */
  readonly ofAll?: true;
}

/** An entry as this phone holds it. `position` is null until the entry came back in this phone's own pull. */
export interface StoredEntry {
  readonly id: string;
  readonly entry: Entry;
  readonly position: number | null;
  readonly aside: Refusal | null;
}

/** An entry that the server has not shown to us yet, as canonical text. */
export interface WaitingEntry {
  readonly id: string;
  readonly text: string;
}

/** A row of the server's log: canonical text and its place. */
export interface PlacedEntry {
  readonly id: string;
  readonly text: string;
  readonly position: number;
}

/** A body that lost its id to another one; kept so that nothing a keeper wrote is gone. */
export interface ApartEntry {
  readonly id: string;
  readonly text: string;
}

/** What the server last answered to a question, shown with its date while it cannot be asked. */
export interface KeptAnswer {
  readonly value: unknown;
  readonly got_ms: number;
}

/**
 * What a book added up to when it had `n` entries, packed by `reader`, the app that alone may unpack it. A convenience
 * like an answer: it may be lost at any time, and no figure comes from it once the entries themselves were read.
 * `replaced`: how many bodies the server had replaced by then; `latest`: the greatest id of each device; `hash`: of all
 * texts, so that damage shows.
 */
export interface KeptSum {
  readonly reader: string;
  readonly n: number;
  readonly replaced: number;
  readonly latest: Readonly<Record<string, string>>;
  readonly texts: readonly string[];
  readonly hash: string;
}

/** A kept sum that fits the book, the entries that it did not see, and those without a place; `n`: all entries. */
export interface KeptStart {
  readonly sum: KeptSum;
  readonly since: readonly StoredEntry[];
  readonly here: readonly StoredEntry[];
  readonly n: number;
}

/** What a write changed. `reset` means every place: read all again. */
export type Change =
  | { readonly kind: "rows"; readonly rows: readonly StoredEntry[] }
  | { readonly kind: "reset" };

/**
 * One holding's book on this phone. Entries are immutable: no call deletes or changes a body that was saved.
 * The outbox is `waiting()`: it is computed from the places, never kept beside them.
 * Every write is idempotent, so a caller that got no answer may simply write again.
 */
export interface BookStorage {
  /** The holding whose book this is. */
  readonly holding: string;
  /**
   * Resolves once all entries are durable and were read back; rejects with NotSaved.
   * An id held with another body keeps its first body; the new one goes to `apart`.
   */
  append(entries: readonly Entry[]): Promise<void>;
  /** Every entry, sorted by id. */
  all(): Promise<StoredEntry[]>;
  /** At most so many entries after the given id, or from the start, sorted by id. */
  page(after: string | null, most: number): Promise<StoredEntry[]>;
  /** Those of the given ids that are held. */
  read(ids: readonly string[]): Promise<StoredEntry[]>;
  /** Entries without a place that are not set aside, sorted by id. */
  waiting(): Promise<WaitingEntry[]>;
  /** Rows of the log and the cursor behind them, in one transaction. A differing own body goes to `apart`. */
  applyPage(rows: readonly PlacedEntry[], cursor: string): Promise<void>;
  /** How far this phone has read the server's log; null: from the start. */
  cursor(): Promise<string | null>;
  /** The server's history is another one: in one transaction no entry has a place, none is set aside, no cursor. */
  resetPlaces(): Promise<void>;
  /** Stop offering one entry to the server, with the reason. */
  setAside(id: string, refusal: Refusal): Promise<void>;
  /**
   * What was set aside waits again, once for each other version of the server: it may take what the last one refused.
   * What was erased there, or lost its number to another entry, stays aside.
   */
  offerAgain(version: string): Promise<void>;
  /** Bodies kept apart, for export. */
  apart(): Promise<ApartEntry[]>;
  /** The last known server clock minus this phone's, in ms; null before the first answer. */
  skew(): Promise<number | null>;
  keepSkew(skew_ms: number): Promise<void>;
  /** The last answer to a question, by its path. Answers are a convenience: they may be lost, entries may not. */
  answer(path: string): Promise<KeptAnswer | null>;
  keepAnswer(path: string, answer: KeptAnswer): Promise<void>;
  /** The sum that this reader kept; null where there is none or it does not fit the entries that are held. */
  keptSum(reader: string): Promise<KeptStart | null>;
  /** How many bodies were replaced by the server's, for a sum that begins now. */
  replaced(): Promise<number>;
  /** Keeps a sum of the entries that `saw` knows, or false where that is not what is held now. */
  keepSum(sum: KeptSum, saw: (id: string) => boolean): Promise<boolean>;
  /** Write, read and delete one row: rejects with NotSaved where this browser cannot keep a book. */
  probe(): Promise<void>;
  /** Told after each write of this page; returns the way to stop. */
  watch(told: (change: Change) => void): () => void;
  close(): void;
}
