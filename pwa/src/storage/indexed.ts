import type { IDBPDatabase } from "idb";
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
  KeptStart,
  KeptSum,
  PlacedEntry,
  Refusal,
  StoredEntry,
  WaitingEntry,
} from "./port.ts";
import { placedRow, storedEntry } from "./rows.ts";
import type { BookSchema, EntryRow } from "./schema.ts";
import { settled } from "./settled.ts";

// What only the exchange with a server and long books need does not hold up the first scripts.
const placing = () => import("./placing.ts");
const sums = () => import("./sums.ts");

/** A save that takes longer is "not saved yet"; it may still succeed later, which does no harm. */
export const SAVE_WATCHDOG_MS = 3000;
/** Whole pages may take longer on an old phone, but must not hold the sync lock for ever. */
const PAGE_WATCHDOG_MS = 20_000;

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
      const tx = db.transaction(["entries", "apart", "unsummed"], "readwrite", { durability: "strict" });
      await settled(
        tx.done,
        rows.map(async (row) => {
          const held = await tx.objectStore("entries").get(row.id);
          if (!held) {
            await Promise.all([
              tx.objectStore("entries").put(row),
              tx.objectStore("unsummed").put({ id: row.id }),
            ]);
          } else if (held.text !== row.text)
            await tx.objectStore("apart").put({ id: row.id, text: row.text });
        }),
      );
      return readBack(db, rows);
    });
    this.#tell({ kind: "rows", rows: held.map(storedEntry) });
  }

  async all(): Promise<StoredEntry[]> {
    return (await this.#read((db) => db.getAll("entries"))).map(storedEntry);
  }

  async page(after: string | null, most: number): Promise<StoredEntry[]> {
    const range = after === null ? null : IDBKeyRange.lowerBound(after, true);
    return (await this.#read((db) => db.getAll("entries", range, most))).map(storedEntry);
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
    const { placePage } = await placing();
    await this.#write(PAGE_WATCHDOG_MS, (db) => placePage(db, rows, cursor));
    this.#tell({ kind: "rows", rows: rows.map((row) => storedEntry(placedRow(row))) });
  }

  async cursor(): Promise<string | null> {
    const cursor = await this.#read((db) => db.get("marks", "cursor"));
    return typeof cursor === "string" ? cursor : null;
  }

  async resetPlaces(): Promise<void> {
    const { clearPlaces } = await placing();
    await this.#write(PAGE_WATCHDOG_MS, clearPlaces);
    this.#tell({ kind: "reset" });
  }

  async setAside(id: string, refusal: Refusal): Promise<void> {
    const { putAside } = await placing();
    await this.#write(SAVE_WATCHDOG_MS, (db) => putAside(db, id, refusal));
    this.#tell({ kind: "rows", rows: await this.read([id]) });
  }

  async offerAgain(version: string): Promise<void> {
    const { putForward } = await placing();
    const ids = await this.#write(PAGE_WATCHDOG_MS, (db) => putForward(db, version));
    if (ids.length > 0) this.#tell({ kind: "rows", rows: await this.read(ids) });
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

  async keptSum(reader: string): Promise<KeptStart | null> {
    const { readSum, startFrom } = await sums();
    return startFrom(await this.#read(readSum), reader);
  }

  replaced(): Promise<number> {
    return this.#read(async (db) => Number((await db.get("marks", "replaced")) ?? 0));
  }

  async keepSum(sum: KeptSum, saw: (id: string) => boolean): Promise<boolean> {
    const { writeSum } = await sums();
    return this.#write(PAGE_WATCHDOG_MS, (db) => writeSum(db, sum, saw));
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
