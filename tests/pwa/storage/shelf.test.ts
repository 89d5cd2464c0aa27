import { IDBFactory } from "fake-indexeddb";
import "fake-indexeddb/auto";
import { beforeEach, expect, it, vi } from "vitest";
import type { HoldingCard } from "../../../pwa/src/storage/holding-card.ts";
import { IndexedShelf } from "../../../pwa/src/storage/shelf.ts";

const card = (id: string): HoldingCard => ({
  id,
  name: id,
  demo: false,
  device: "d",
  earlier_devices: [],
  role: "keeper",
  paired_ms: 1,
});

beforeEach(() => {
  vi.stubGlobal("indexedDB", new IDBFactory());
});

it("is empty on a new phone", async () => {
  const shelf = new IndexedShelf();
  expect([await shelf.open(), await shelf.cards()]).toEqual([null, []]);
});

it("opens the book that was put there last, also after a restart", async () => {
  const shelf = new IndexedShelf();
  await shelf.put(card("home"));
  await shelf.put(card("club"));
  await shelf.put({ ...card("home"), role: "reader" });
  const later = new IndexedShelf();
  expect(await later.open()).toEqual({ ...card("home"), role: "reader" });
  expect((await later.cards()).map((one) => one.id)).toEqual(["club", "home"]);
});

it("forgets a card when told to", async () => {
  const shelf = new IndexedShelf();
  await shelf.put(card("home"));
  await shelf.remove("home");
  expect([await shelf.open(), await shelf.cards()]).toEqual([null, []]);
});

it("says NotSaved where the browser allows no database", async () => {
  vi.spyOn(indexedDB, "open").mockImplementation(() => {
    throw new DOMException("private window", "SecurityError");
  });
  await expect(new IndexedShelf().put(card("home"))).rejects.toMatchObject({ code: "refused" });
});
