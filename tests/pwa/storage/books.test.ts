import { IDBFactory } from "fake-indexeddb";
import "fake-indexeddb/auto";
import { expect, it, vi } from "vitest";
import { canonical } from "../../../pwa/src/book/wire.ts";
import { IndexedBook } from "../../../pwa/src/storage/indexed.ts";
import { MemoryBook } from "../../../pwa/src/storage/memory.ts";
import { writer } from "./entries-of.ts";
import { storageSuite } from "./storage-suite.ts";

storageSuite(
  "the book in memory",
  async () => new MemoryBook("home"),
  async (storage) => storage,
);

storageSuite(
  "the book in IndexedDB",
  async () => {
    vi.stubGlobal("indexedDB", new IDBFactory());
    return new IndexedBook("home");
  },
  async (storage) => {
    storage.close();
    return new IndexedBook(storage.holding);
  },
);

it("keeps each holding's entries in a database of its own", async () => {
  vi.stubGlobal("indexedDB", new IDBFactory());
  const { entry } = writer();
  const [home, club] = [new IndexedBook("home"), new IndexedBook("club")];
  await home.append([entry()]);
  expect(await club.all()).toEqual([]);
  expect((await indexedDB.databases()).map((one) => one.name).sort()).toEqual([
    "broodline:club",
    "broodline:home",
  ]);
});

// Chromium slowed 6 times, 20,000 rows, on a busy machine: 47 s one after another, 72 s by a cursor, 9 s at once.
it("clears all places at once, so that a long book is done before the watchdog", async () => {
  vi.stubGlobal("indexedDB", new IDBFactory());
  const { entry } = writer();
  const book = new IndexedBook("home");
  const rows = Array.from({ length: 50 }, entry).map((one, i) => ({
    id: one.id,
    text: canonical(one),
    position: i + 1,
  }));
  await book.applyPage(rows, "e.50.c");
  const own = entry();
  await book.append([own]);
  const { put } = IDBObjectStore.prototype;
  let [open, most, all] = [0, 0, 0];
  const spy = vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(function (
    this: IDBObjectStore,
    ...given: Parameters<IDBObjectStore["put"]>
  ) {
    const request = put.apply(this, given);
    [open, all] = [open + 1, all + 1];
    most = Math.max(most, open);
    request.addEventListener("success", () => {
      open -= 1;
    });
    return request;
  });
  await book.resetPlaces();
  spy.mockRestore();
  expect([most, all]).toEqual([50, 50]); // and none for what waited already
  expect((await book.waiting()).map((one) => one.id)).toEqual([...rows.map((one) => one.id), own.id]);
});
