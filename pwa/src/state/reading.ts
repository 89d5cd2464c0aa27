/** How a book comes from storage into memory: at once, or as it was added up earlier with its entries following. */

import type { Entry } from "../book/entries.ts";
import type { BookStorage, KeptStart } from "../storage/port.ts";
import { held, holdAll, holdSum } from "./held.ts";

const RETRY_MS = 3000;

/** What a book's later reading does; its script comes after the first ones. See `keeping.ts`. */
export type Keeping = typeof import("./keeping.ts");

/** What reading needs beside the book: the name of this app as a reader, and a rest that lets a finger through. */
export interface Reader {
  readonly reader: string;
  readonly rest: () => Promise<void>;
  readonly keeping: () => Promise<Keeping>;
}

/** The greatest id of each device. */
export type Latest = Readonly<Record<string, string>>;

/** A book in memory. */
export interface Reading {
  readonly latest: Latest;
  /** Reads what is not in memory yet, and from then on keeps what the book adds up to for the next start. */
  readonly goOn: () => void;
  readonly stop: () => void;
}

/** Puts the book into memory, with entries that are not in storage, so far that all of its figures are known. */
export async function read(
  storage: BookStorage,
  start: KeptStart | null,
  tapped: () => readonly Entry[],
  around: Reader,
): Promise<Reading> {
  const keeping = start && (await around.keeping().catch(() => null));
  const sum = start && keeping && (await keeping.summed(start));
  if (sum) holdSum(sum, start, tapped());
  else holdAll(await storage.all(), tapped());
  const known = [...held.value.entries.values()].map((one) => one.entry);
  const isOver = new AbortController();
  return {
    latest: latestOf(known, sum ? start.sum.latest : {}),
    goOn: () => void goOn(storage, sum ? start.since.length : null, around, isOver.signal),
    stop: () => isOver.abort(),
  };
}

export function latestOf(entries: readonly Entry[], before: Latest = {}): Latest {
  const latest: Record<string, string> = { ...before };
  for (const { device, id } of entries) if (id > (latest[device] ?? "")) latest[device] = id;
  return latest;
}

async function goOn(
  storage: BookStorage,
  unsummed: number | null,
  around: Reader,
  isOver: AbortSignal,
): Promise<void> {
  while (!isOver.aborted) {
    const keeping = await around.keeping().catch(() => null);
    if (keeping) return keeping.goOn(storage, unsummed, around, isOver);
    await new Promise((done) => setTimeout(done, RETRY_MS)); // it could not be fetched
  }
}
