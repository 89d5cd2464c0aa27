import { IDBFactory } from "fake-indexeddb";
import "fake-indexeddb/auto";
import { beforeEach, describe, expect, it, vi } from "vitest";
import { NotSaved } from "../../../pwa/src/storage/not-saved.ts";
import type { PictureStorage } from "../../../pwa/src/storage/pictures.ts";
import { IndexedPictures, picturesName, picturesOf } from "../../../pwa/src/storage/pictures-indexed.ts";
import { MemoryPictures } from "../../../pwa/src/storage/pictures-memory.ts";
import { bookName } from "../../../pwa/src/storage/schema.ts";

const REFUSAL = { code: "too_large", message: "The picture is over 2 MiB.", remedy: "Take it again." };
const picture = (name: string) => {
  const bytes = new Uint8Array([0xff, 0xd8, 0xff, ...new TextEncoder().encode(name)]).buffer;
  return { sha256: name, type: "image/jpeg", bytes };
};
const bytesOf = (held: { bytes: ArrayBuffer } | null) => held && [...new Uint8Array(held.bytes)];

/** What every store of pictures has to do. `reopen` gives the same one after a restart. */
function pictureSuite(
  name: string,
  make: () => PictureStorage,
  reopen: (held: PictureStorage) => PictureStorage,
) {
  describe(`${name} keeps pictures`, () => {
    let held: PictureStorage;
    beforeEach(() => {
      held = make();
    });

    it("byte for byte, also after a restart", async () => {
      await held.keep(picture("a"));
      held = reopen(held);
      expect(bytesOf(await held.read("a"))).toEqual(bytesOf(picture("a")));
      expect((await held.read("a"))?.type).toBe("image/jpeg");
      expect([await held.read("b"), await held.way("b")]).toEqual([null, null]);
    });

    it("to be sent in the order in which they were kept, each until a server with this history has it", async () => {
      for (const one of ["c", "a", "b"]) await held.keep(picture(one));
      expect(await held.unsent("e1")).toEqual(["c", "a", "b"]);
      await held.markSent("c", "e1");
      held = reopen(held);
      expect(await held.unsent("e1")).toEqual(["a", "b"]);
      expect(await held.unsent("e2")).toEqual(["c", "a", "b"]);
    });

    it("once: the same again is not sent again, and loses no refusal", async () => {
      await held.keep(picture("a"));
      await held.keep(picture("b"));
      await held.markSent("a", "e1");
      await held.refuse("b", REFUSAL);
      await held.keep(picture("a"));
      await held.keep(picture("b"));
      expect(await held.unsent("e1")).toEqual([]);
      expect((await held.way("b"))?.refusal).toEqual(REFUSAL);
    });

    it("that were refused aside, until the server's history is another one", async () => {
      await held.keep(picture("a"));
      await held.keep(picture("b"));
      await held.markSent("a", "e1");
      await held.refuse("b", REFUSAL);
      expect(await held.unsent("e1")).toEqual([]);
      await held.forgetSent();
      held = reopen(held);
      expect(await held.unsent("e1")).toEqual(["a", "b"]);
      expect(await held.way("b")).toEqual({ sha256: "b", n: 1, sent_epoch: null, refusal: null });
    });

    it("and tells of each write, until nobody listens", async () => {
      const told = vi.fn();
      const stop = held.watch(told);
      await held.keep(picture("a"));
      await held.markSent("a", "e1");
      await held.refuse("a", REFUSAL);
      await held.forgetSent();
      expect(told).toHaveBeenCalledTimes(4);
      stop();
      await held.markSent("a", "e1");
      expect(told).toHaveBeenCalledTimes(4);
    });
  });
}

beforeEach(() => {
  vi.restoreAllMocks();
  vi.stubGlobal("indexedDB", new IDBFactory());
});

pictureSuite(
  "the memory",
  () => new MemoryPictures("home"),
  (held) => held,
);
pictureSuite(
  "IndexedDB",
  () => new IndexedPictures("home"),
  (held) => {
    held.close();
    return new IndexedPictures(held.holding);
  },
);

describe("a picture that the phone did not keep", () => {
  const fault = (work: Promise<unknown>) => work.then(() => null).catch((found: unknown) => found);

  it("is told as no room where there is none, and is not there", async () => {
    const held = new IndexedPictures("home");
    await held.keep(picture("a"));
    vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(() => {
      throw new DOMException("injected", "QuotaExceededError");
    });
    const found = await fault(held.keep(picture("b")));
    expect([found instanceof NotSaved, (found as NotSaved).code]).toEqual([true, "full"]);
    vi.restoreAllMocks();
    expect([await held.read("b"), await held.way("b")]).toEqual([null, null]);
    await held.keep(picture("b"));
    expect(bytesOf(await held.read("b"))).toEqual(bytesOf(picture("b")));
  });

  it("is told as lost where the browser called it saved and other bytes come back", async () => {
    const held = new IndexedPictures("home");
    const put = IDBObjectStore.prototype.put;
    vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(function (this: IDBObjectStore, row, key) {
      return put.call(this, this.name === "pictures" ? { ...row, bytes: new ArrayBuffer(3) } : row, key);
    });
    expect(await fault(held.keep(picture("a")))).toMatchObject({ code: "lost" });
  });
});

it("lies in a database of its own for each holding, which is no book, opened once in a page", async () => {
  await picturesOf("home").keep(picture("a"));
  expect(await picturesOf("club").read("a")).toBeNull();
  expect(picturesOf("home")).toBe(picturesOf("home"));
  const names = (await indexedDB.databases()).map((one) => one.name).sort();
  expect(names).toEqual([picturesName("club"), picturesName("home")]);
  expect(names.some((name) => name?.startsWith(bookName("")))).toBe(false);
});
