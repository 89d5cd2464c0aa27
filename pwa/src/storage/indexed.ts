import type { IDBPDatabase, IDBPTransaction } from "idb";
import type { Entry } from "../book/entries.ts";
import { canonical } from "../book/wire.ts";
import { Door, type DoorWarnings } from "./door.ts";
import { NotSaved } from "./not-saved.ts";
import { openBook } from "./open.ts";
import type {
  ApartEntry,
  BookStorage,
  Change,
  KeptAnswer,
  PlacedEntry,
  Refusal,
  StoredEntry,
  WaitingEntry,
} from "./port.ts";
import { placedRow, storedEntry } from "./rows.ts";
import type { BookSchema, EntryRow } from "./schema.ts";

/** A save that takes longer is "not saved yet"; it may still succeed later, which does no harm. */
export const SAVE_WATCHDOG_MS = 3000;
/** Whole pages may take longer on an old phone, but must not hold the sync lock for ever. */
const PAGE_WATCHDOG_MS = 20_000;

type Tx = IDBPTransaction<BookSchema, ("entries" | "apart" | "marks")[], "readwrite">;

/** One holding's book in IndexedDB. Success is told on transaction complete and read-back, never on request. */
export class IndexedBook implements BookStorage {
  readonly holding: string;
  readonly #door: Door<BookSchema>;
  readonly #told = new Set<(change: Change) => void>();

  constructor(holding: string, warnings: DoorWarnings = {}) {
    this.holding = holding;
    this.#door = new Door((answers) => openBook(holding, answers), warnings);
  }

  async append(entries: readonly Entry[]): Promise<void> {
    const rows = entries.map((entry): EntryRow => {
      return { id: entry.id, text: canonical(entry), position: null, waiting: 1 };
    });
    const held = await this.#write(SAVE_WATCHDOG_MS, async (db) => {
      const tx = db.transaction(["entries", "apart"], "readwrite", { durability: "strict" });
      await settled(
        tx.done,
        rows.map(async (row) => {
          const held = await tx.objectStore("entries").get(row.id);
          if (!held) await tx.objectStore("entries").put(row);
          else if (held.text !== row.text) await tx.objectStore("apart").put({ id: row.id, text: row.text });
        }),
      );
      return readBack(db, rows);
    });
    this.#tell({ kind: "rows", rows: held.map(storedEntry) });
  }

  async all(): Promise<StoredEntry[]> {
    return (await this.#read((db) => db.getAll("entries"))).map(storedEntry);
  }

  async read(ids: readonly string[]): Promise<StoredEntry[]> {
    const rows = await this.#read((db) => {
      const store = db.transaction("entries").store;
      return Promise.all(ids.map((id) => store.get(id)));
    });
    return rows.filter((row) => row !== undefined).map(storedEntry);
  }

  async waiting(): Promise<WaitingEntry[]> {
    const rows = await this.#read((db) => db.getAllFromIndex("entries", "waiting"));
    return rows.map(({ id, text }) => ({ id, text }));
  }

  async applyPage(rows: readonly PlacedEntry[], cursor: string): Promise<void> {
    await this.#write(PAGE_WATCHDOG_MS, async (db) => {
      const tx: Tx = db.transaction(["entries", "apart", "marks"], "readwrite");
      const entries = tx.objectStore("entries");
      await settled(tx.done, [
        ...rows.map(async (row) => {
          const held = await entries.get(row.id);
          if (held && held.text !== row.text) {
            await tx.objectStore("apart").put({ id: held.id, text: held.text });
          }
          await entries.put(placedRow(row));
        }),
        tx.objectStore("marks").put(cursor, "cursor"),
      ]);
    });
    this.#tell({ kind: "rows", rows: rows.map((row) => storedEntry(placedRow(row))) });
  }

  async cursor(): Promise<string | null> {
    const cursor = await this.#read((db) => db.get("marks", "cursor"));
    return typeof cursor === "string" ? cursor : null;
  }

  async resetPlaces(): Promise<void> {
    await this.#write(PAGE_WATCHDOG_MS, async (db) => {
      const tx: Tx = db.transaction(["entries", "apart", "marks"], "readwrite", { durability: "strict" });
      const entries = tx.objectStore("entries");
      await settled(tx.done, [
        tx.objectStore("marks").delete("cursor"),
        (async () => {
          for (const { id, text } of await entries.getAll()) {
            await entries.put({ id, text, position: null, waiting: 1 });
          }
        })(),
      ]);
    });
    this.#tell({ kind: "reset" });
  }

  async setAside(id: string, refusal: Refusal): Promise<void> {
    await this.#write(SAVE_WATCHDOG_MS, async (db) => {
      const tx = db.transaction("entries", "readwrite", { durability: "strict" });
      await settled(tx.done, [
        (async () => {
          const held = await tx.store.get(id);
          if (held?.position !== null) return; // unknown, or taken by the server meanwhile
          await tx.store.put({ id, text: held.text, position: null, aside: refusal });
        })(),
      ]);
    });
    this.#tell({ kind: "rows", rows: await this.read([id]) });
  }

  apart(): Promise<ApartEntry[]> {
    return this.#read((db) => db.getAll("apart"));
  }

  async skew(): Promise<number | null> {
    const skew_ms = await this.#read((db) => db.get("marks", "skew_ms"));
    return typeof skew_ms === "number" ? skew_ms : null;
  }

  async keepSkew(skew_ms: number): Promise<void> {
    await this.#write(SAVE_WATCHDOG_MS, async (db) => {
      await db.put("marks", skew_ms, "skew_ms");
    });
  }

  async answer(path: string): Promise<KeptAnswer | null> {
    return (await this.#read((db) => db.get("answers", path))) ?? null;
  }

  async keepAnswer(path: string, answer: KeptAnswer): Promise<void> {
    await this.#write(SAVE_WATCHDOG_MS, async (db) => {
      await db.put("answers", answer, path);
    });
  }

  async probe(): Promise<void> {
    await this.#write(SAVE_WATCHDOG_MS, async (db) => {
      await db.put("marks", "written", "probe");
      if ((await db.get("marks", "probe")) !== "written") throw new NotSaved("lost");
      await db.delete("marks", "probe");
    });
  }

  watch(told: (change: Change) => void): () => void {
    this.#told.add(told);
    return () => this.#told.delete(told);
  }

  close(): void {
    this.#door.close();
  }

  #read<T>(work: (db: IDBPDatabase<BookSchema>) => Promise<T>): Promise<T> {
    return this.#door.inTime(this.#door.isBlocked ? SAVE_WATCHDOG_MS : PAGE_WATCHDOG_MS, work);
  }

  #write<T>(watchdog_ms: number, work: (db: IDBPDatabase<BookSchema>) => Promise<T>): Promise<T> {
    return this.#door.inTime(watchdog_ms, work);
  }

  #tell(change: Change): void {
    for (const told of this.#told) told(change);
  }
}

/** Waits for the transaction's end; the requests' own rejections are answered so that none stays unhandled. */
async function settled(done: Promise<void>, requests: readonly Promise<unknown>[]): Promise<void> {
  const outcomes = await Promise.allSettled([done, ...requests]);
  for (const outcome of outcomes) {
    if (outcome.status === "rejected") throw outcome.reason ?? new DOMException("aborted", "AbortError");
  }
}

async function readBack(db: IDBPDatabase<BookSchema>, rows: readonly EntryRow[]): Promise<EntryRow[]> {
  const tx = db.transaction(["entries", "apart"]);
  const found: EntryRow[] = [];
  for (const { id, text } of rows) {
    const held = await tx.objectStore("entries").get(id);
    if (!held) throw new NotSaved("lost");
    if (held.text !== text && !(await tx.objectStore("apart").get([id, text]))) throw new NotSaved("lost");
    found.push(held);
  }
  return found;
}
