import { IDBFactory } from "fake-indexeddb";
import "fake-indexeddb/auto";
import { expect, it, vi } from "vitest";
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
