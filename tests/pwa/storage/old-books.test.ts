// Every phone that a released version left behind opens, migrates and adds up as it did then.
import { readdirSync, readFileSync } from "node:fs";
import { IDBFactory } from "fake-indexeddb";
import "fake-indexeddb/auto";
import { expect, it, vi } from "vitest";
import { fold } from "../../../pwa/src/book/fold.ts";
import { standingJson } from "../../../pwa/src/book/standing.ts";
import { IndexedBook } from "../../../pwa/src/storage/indexed.ts";
import { IndexedShelf } from "../../../pwa/src/storage/shelf.ts";

interface Dump {
  readonly version: number;
  readonly stores: Readonly<
    Record<
      string,
      {
        keyPath: string | string[] | null;
        indexes?: Readonly<Record<string, string>>; // not told of the first schema
        rows: [IDBValidKey, unknown][];
      }
    >
  >;
}

const OLD_BOOKS = new URL("../../old_books/", import.meta.url);
const read = (path: string) => JSON.parse(readFileSync(new URL(path, OLD_BOOKS), "utf-8"));
const versions = readdirSync(OLD_BOOKS).filter((name) => /^\d+$/.test(name));

/** The database as that version made it, by nothing but the browser's own calls. */
function layDown(name: string, { version, stores }: Dump): Promise<void> {
  return new Promise((done, fail) => {
    const request = indexedDB.open(name, version);
    request.onupgradeneeded = () => {
      for (const [store, { keyPath, indexes, rows }] of Object.entries(stores)) {
        const made = request.result.createObjectStore(store, keyPath === null ? {} : { keyPath });
        const told = indexes ?? (store === "entries" ? { waiting: "waiting" } : {});
        for (const [index, path] of Object.entries(told)) made.createIndex(index, path);
        for (const [key, value] of rows) keyPath === null ? made.put(value, key) : made.put(value);
      }
    };
    request.onerror = () => fail(request.error);
    request.onsuccess = () => {
      request.result.close();
      done();
    };
  });
}

it("has a phone of each schema", () => {
  expect(versions.length).toBeGreaterThan(0);
});

it.each(versions)("phone %s adds up as it did, and knows what it had not sent", async (version) => {
  vi.stubGlobal("indexedDB", new IDBFactory());
  const dumps = read(`${version}/phone.json`) as Record<string, Dump>;
  for (const [name, dump] of Object.entries(dumps)) await layDown(name, dump);
  const card = await new IndexedShelf().open();
  expect(card?.paired_ms).toBeTypeOf("number");
  const book = new IndexedBook(card?.id ?? "");
  const rows = await book.all();
  expect(standingJson(fold(rows.map((row) => row.entry)))).toEqual(read(`${version}/standing.json`));
  expect(await book.waiting()).toHaveLength(1);
  expect(await book.cursor()).toBeTypeOf("string");
  expect(await book.keptSum("this app")).toBeNull(); // too short a book, or none of this app
  await book.probe(); // and can be written in
  book.close();
});
