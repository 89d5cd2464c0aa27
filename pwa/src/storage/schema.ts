import type { DBSchema } from "idb";
import type { HoldingCard } from "./holding-card.ts";
import type { KeptAnswer, KeptSum, Refusal } from "./port.ts";

/**
 * Versions only add stores and indexes; no upgrade rewrites an entry.
 *   book 1: entries, apart, marks, answers     shelf 1: holdings, marks
 *   book 2: sums, unsummed, entries' index "aside"
 */
export const BOOK_VERSION = 2;
export const SHELF_VERSION = 1;
export const SHELF_NAME = "broodline";

export function bookName(holding: string): string {
  return `broodline:${holding}`;
}

/**
 * `text` is the entry's canonical text, so that fields of newer apps pass through byte for byte.
 * `waiting` is 1 while the entry has no place and is not set aside, and absent otherwise: IndexedDB cannot
 * index null.
 */
export interface EntryRow {
  id: string;
  text: string;
  position: number | null;
  waiting?: 1;
  aside?: Refusal;
}

export interface BookSchema extends DBSchema {
  entries: { key: string; value: EntryRow; indexes: { waiting: number; aside: string } };
  apart: { key: [string, string]; value: { id: string; text: string } };
  marks: { key: string; value: string | number };
  answers: { key: string; value: KeptAnswer };
  sums: { key: "standing"; value: KeptSum };
  /** Entries that the kept sum did not see. */
  unsummed: { key: string; value: { id: string } };
}

export interface ShelfSchema extends DBSchema {
  holdings: { key: string; value: HoldingCard };
  marks: { key: string; value: string | number };
}
