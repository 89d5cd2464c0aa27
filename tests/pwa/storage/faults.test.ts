import { forceCloseDatabase, IDBFactory } from "fake-indexeddb";
import "fake-indexeddb/auto";
import { openDB } from "idb";
import { beforeEach, describe, expect, it, vi } from "vitest";
import { canonical } from "../../../pwa/src/book/wire.ts";
import { IndexedBook, SAVE_WATCHDOG_MS } from "../../../pwa/src/storage/indexed.ts";
import { NotSaved, notSaved, within } from "../../../pwa/src/storage/not-saved.ts";
import { BOOK_VERSION, bookName } from "../../../pwa/src/storage/schema.ts";
import { writer } from "./entries-of.ts";

const { entry } = writer();
const named = (name: string) => new DOMException("injected", name);
// The package's types ask for the class where its code takes an open database.
const forceClose = forceCloseDatabase as unknown as (database: IDBDatabase) => void;
const realTransaction = IDBDatabase.prototype.transaction;

/** The next `times` transactions throw; tells how many were asked for in all. */
function breakTransactions(fault: () => unknown, times: number): () => number {
  let asked = 0;
  vi.spyOn(IDBDatabase.prototype, "transaction").mockImplementation(function (this: IDBDatabase, ...args) {
    asked += 1;
    if (asked <= times) throw fault();
    return realTransaction.apply(this, args);
  });
  return () => asked;
}

/** Requests are answered in turn: so many later, all of the work's own have succeeded, and only the commit is left. */
const ROUNDS = 9;

/** Of the transactions that write, these (counted from 0) are aborted when nothing but the commit is left. */
function abortAtCommit(isAborted: (at: number) => boolean): void {
  let at = -1;
  vi.spyOn(IDBDatabase.prototype, "transaction").mockImplementation(function (this: IDBDatabase, ...args) {
    const tx = realTransaction.apply(this, args);
    if (args[1] === "readwrite" && isAborted(++at)) {
      const store = tx.objectStore([...tx.objectStoreNames][0] ?? "");
      let round = 0;
      const busy = () => {
        if (++round < ROUNDS) store.get("nobody").onsuccess = busy;
        else tx.abort();
      };
      busy();
    }
    return tx;
  });
}

beforeEach(() => {
  vi.stubGlobal("indexedDB", new IDBFactory());
});

describe("a dead handle", () => {
  for (const name of ["InvalidStateError", "UnknownError", "TransactionInactiveError"]) {
    it(`is dropped after ${name} and the save succeeds within one reopening`, async () => {
      const storage = new IndexedBook("home");
      await storage.append([entry()]);
      const opened = vi.spyOn(indexedDB, "open");
      breakTransactions(() => named(name), 1);
      const late = entry();
      await storage.append([late]);
      expect(opened).toHaveBeenCalledTimes(1);
      vi.restoreAllMocks();
      expect((await storage.all()).map((one) => one.id)).toContain(late.id);
    });
  }

  it("is given up after three reopenings, with the code the screens know", async () => {
    const storage = new IndexedBook("home");
    await storage.all();
    const opened = vi.spyOn(indexedDB, "open");
    breakTransactions(() => named("UnknownError"), Number.POSITIVE_INFINITY);
    await expect(storage.append([entry()])).rejects.toMatchObject({ name: "NotSaved", code: "refused" });
    expect(opened).toHaveBeenCalledTimes(3);
  });

  it("is found when the browser closes the database behind our back", async () => {
    const storage = new IndexedBook("home");
    await storage.append([entry()]);
    const databases: IDBDatabase[] = [];
    vi.spyOn(IDBDatabase.prototype, "transaction").mockImplementation(function (this: IDBDatabase, ...args) {
      databases.push(this);
      return realTransaction.apply(this, args);
    });
    await storage.all();
    vi.restoreAllMocks();
    const opened = vi.spyOn(indexedDB, "open");
    for (const database of databases) forceClose(database);
    await storage.append([entry()]);
    expect(opened).toHaveBeenCalledTimes(1);
  });

  it("is not confused with a full disk: that fault comes out at once", async () => {
    const storage = new IndexedBook("home");
    await storage.all();
    const opened = vi.spyOn(indexedDB, "open");
    breakTransactions(() => named("QuotaExceededError"), Number.POSITIVE_INFINITY);
    await expect(storage.append([entry()])).rejects.toMatchObject({ code: "full" });
    expect(opened).not.toHaveBeenCalled();
  });
});

describe("a save", () => {
  it("asks for strict durability", async () => {
    const asked = vi.spyOn(IDBDatabase.prototype, "transaction");
    await new IndexedBook("home").append([entry()]);
    const writing = asked.mock.calls.filter((call) => call[1] === "readwrite");
    expect(writing.map((call) => call[2])).toEqual([{ durability: "strict" }]);
  });

  it("is no save when the transaction aborts at commit", async () => {
    const storage = new IndexedBook("home");
    const kept = entry();
    await storage.append([kept]);
    abortAtCommit(() => true);
    await expect(storage.append([entry()])).rejects.toBeInstanceOf(NotSaved);
    vi.restoreAllMocks();
    expect((await storage.all()).map((one) => one.id)).toEqual([kept.id]);
  });

  it("is no save when the row does not read back", async () => {
    const storage = new IndexedBook("home");
    await storage.all();
    vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(function (this: IDBObjectStore) {
      return this.get("nobody") as unknown as IDBRequest<IDBValidKey>; // "success", and nothing written
    });
    await expect(storage.append([entry()])).rejects.toMatchObject({ code: "lost" });
  });

  it("that hangs is 'not saved yet' after three seconds, and repeating it is harmless", async () => {
    vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout"] });
    try {
      const storage = new IndexedBook("home");
      await storage.all();
      const hung = vi.spyOn(indexedDB, "open");
      storage.close();
      hung.mockImplementation(() => new IDBOpenDBRequest()); // never answers
      const one = entry();
      const saving = storage.append([one]);
      const failed = expect(saving).rejects.toMatchObject({ code: "slow" });
      await vi.advanceTimersByTimeAsync(SAVE_WATCHDOG_MS - 1);
      await vi.advanceTimersByTimeAsync(2);
      await failed;
      hung.mockRestore();
      await storage.append([one]);
      await storage.append([one]);
      expect(await storage.all()).toHaveLength(1);
    } finally {
      vi.useRealTimers();
    }
  });

  it("reads faults that some browsers give as null", () => {
    expect(notSaved(null)).toMatchObject({ code: "refused" });
    expect(notSaved(named("VersionError"))).toMatchObject({ code: "newer" });
  });

  it("leaves a quick answer alone", async () => {
    expect(await within(1000, Promise.resolve("done"))).toBe("done");
  });
});

describe("a page of the server's log", () => {
  const page = (one: ReturnType<typeof entry>) => [{ id: one.id, text: canonical(one), position: 1 }];

  for (const aborted of [0, 1, 2]) {
    it(`is kept with its cursor or not at all, where write ${aborted} is aborted`, async () => {
      const storage = new IndexedBook("home");
      const one = entry();
      abortAtCommit((at) => at === aborted);
      const kept = await storage.applyPage(page(one), "e.1.c").then(
        () => true,
        () => false,
      );
      vi.restoreAllMocks();
      const rows = (await storage.all()).map((row) => row.position);
      expect([rows, await storage.cursor()]).toEqual(kept ? [[1], "e.1.c"] : [[], null]);
      expect(kept).toBe(aborted > 0);
    });

    it(`loses its places with the cursor or not at all at a reset, where write ${aborted} is aborted`, async () => {
      const storage = new IndexedBook("home");
      await storage.applyPage(page(entry()), "e.1.c");
      abortAtCommit((at) => at === aborted);
      const reset = await storage.resetPlaces().then(
        () => true,
        () => false,
      );
      vi.restoreAllMocks();
      const rows = (await storage.all()).map((row) => row.position);
      expect([rows, await storage.cursor()]).toEqual(reset ? [[null], null] : [[1], "e.1.c"]);
      expect(reset).toBe(aborted > 0);
    });
  }
});

describe("two versions of the app", () => {
  it("lets a newer tab upgrade at once and says that this page is outdated", async () => {
    let outdated = 0;
    const storage = new IndexedBook("home", { onOutdated: () => (outdated += 1) });
    const kept = entry();
    await storage.append([kept]);
    const newer = await openDB(bookName("home"), BOOK_VERSION + 1, {
      upgrade: (db) => void db.createObjectStore("later"),
    });
    expect(outdated).toBe(1);
    await expect(storage.append([entry()])).rejects.toMatchObject({ code: "newer" });
    expect((await newer.getAll("entries")).map((row) => row.id)).toEqual([kept.id]);
    newer.close();
  });
});
