import { IDBFactory } from "fake-indexeddb";
import "fake-indexeddb/auto";
import { type DBSchema, type IDBPDatabase, openDB } from "idb";
import { beforeEach, describe, expect, it, vi } from "vitest";
import { Door } from "../../../pwa/src/storage/door.ts";
import { IndexedBook } from "../../../pwa/src/storage/indexed.ts";
import { booksHere, textsOf } from "../../../pwa/src/storage/rescue.ts";
import { BOOK_VERSION, bookName } from "../../../pwa/src/storage/schema.ts";
import { writer } from "./entries-of.ts";

beforeEach(() => {
  vi.stubGlobal("indexedDB", new IDBFactory());
});

describe("an older tab that does not let go of the book", () => {
  it("is named as the reason, and the book opens as soon as that tab is closed", async () => {
    const older = await openDB("shared", 1); // answers no versionchange
    const door = new Door((answers) => openDB<DBSchema>("shared", 2, { blocked: answers.onBlocked }));
    const names = () => door.inTime(50, async (db) => db.name);
    await expect(names()).rejects.toMatchObject({ name: "NotSaved", code: "blocked" });
    expect(door.isBlocked).toBe(true);
    await expect(names()).rejects.toMatchObject({ code: "blocked" }); // asked again meanwhile
    older.close();
    await vi.waitFor(async () => expect(await names()).toBe("shared"));
    expect(door.isBlocked).toBe(false);
  });

  it("is not named where a database is merely slow", async () => {
    const door = new Door(() => new Promise<IDBPDatabase<DBSchema>>(() => undefined));
    await expect(door.inTime(5, async () => 0)).rejects.toMatchObject({ code: "slow" });
  });
});

describe("a book that a newer app has changed", () => {
  it("can still be read and saved as a copy by an older one, and is left as it is", async () => {
    const { entry } = writer();
    const [kept, twice] = [entry(), entry()];
    const book = new IndexedBook("home");
    await book.append([kept, twice]);
    await book.append([{ ...twice, body: { text: "another" } }]);
    book.close();
    const newer = await openDB(bookName("home"), BOOK_VERSION + 8, {
      upgrade: (db) => void db.createObjectStore("weather"),
    });
    newer.close();
    await expect(new IndexedBook("home").all()).rejects.toMatchObject({ code: "newer" });
    expect(await booksHere()).toEqual(["home"]);
    const texts = (await textsOf("home")).map((text) => JSON.parse(text));
    expect(texts.map((one) => [one.id, one.body.text])).toEqual([
      [kept.id, "a note"],
      [twice.id, "a note"],
      [twice.id, "another"],
    ]);
    expect((await indexedDB.databases()).map((one) => one.version)).toEqual([BOOK_VERSION + 8]);
  });

  it("is not made where there was none", async () => {
    await expect(textsOf("nowhere")).rejects.toThrow();
    expect(await booksHere()).toEqual([]);
  });
});
