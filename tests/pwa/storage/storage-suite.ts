import { beforeEach, describe, expect, it } from "vitest";
import type { Entry } from "../../../pwa/src/book/entries.ts";
import { canonical } from "../../../pwa/src/book/wire.ts";
import type { BookStorage, Change } from "../../../pwa/src/storage/port.ts";
import { writer } from "./entries-of.ts";

const REFUSAL = { code: "envelope", message: "no", remedy: "look" };

/** What every book on a phone has to do. `open` gives an empty one; `reopen` the same one after a restart. */
export function storageSuite(
  name: string,
  open: () => Promise<BookStorage>,
  reopen: (storage: BookStorage) => Promise<BookStorage>,
): void {
  describe(`${name} keeps the storage port`, () => {
    let storage: BookStorage;
    let { entry } = writer();
    const placed = (one: ReturnType<typeof entry>, position: number) => ({
      id: one.id,
      text: canonical(one),
      position,
    });

    beforeEach(async () => {
      storage = await open();
      ({ entry } = writer());
    });

    it("holds what was appended, sorted by id, without a place, also after a restart", async () => {
      const [a, b, c] = [entry(), entry(), entry()];
      await storage.append([c, a]);
      await storage.append([b]);
      storage = await reopen(storage);
      expect(await storage.all()).toEqual(
        [a, b, c].map((one) => ({ id: one.id, entry: one, position: null, aside: null })),
      );
    });

    it("gives pages of what it holds, on from any id", async () => {
      const all = [entry(), entry(), entry()];
      await storage.append(all);
      const ids = async (after: string | null, most: number) =>
        (await storage.page(after, most)).map((row) => row.id);
      const [a = "", b = "", c = ""] = all.map((one) => one.id);
      expect(await ids(null, 2)).toEqual([a, b]);
      expect(await ids(b, 2)).toEqual([c]);
      expect(await ids(c, 2)).toEqual([]);
    });

    describe("keeps a sum", () => {
      const sum = (n: number, replaced = 0) => {
        return { reader: "this app", n, replaced, latest: { a: "1" }, texts: ["{}", "[]"], hash: "h" };
      };
      const keep = (all: readonly Entry[]) =>
        storage.keepSum(sum(all.length), (id) => all.some((one) => one.id === id));
      const idsOf = (rows: readonly { id: string }[] | undefined) => rows?.map((row) => row.id);

      it("of what is held, for the app that kept it, also after a restart", async () => {
        const [a, b] = [entry(), entry()];
        await storage.append([a, b]);
        expect(await storage.keptSum("this app")).toBeNull();
        expect(await keep([a, b])).toBe(true);
        storage = await reopen(storage);
        const start = await storage.keptSum("this app");
        expect(start).toMatchObject({ sum: sum(2), since: [], n: 2 });
        expect(idsOf(start?.here)).toEqual([a.id, b.id]);
        expect(await storage.keptSum("another app")).toBeNull();
      });

      it("and says which entries came after it, appended or pulled, and which are only here", async () => {
        const [a, b, c, d] = [entry(), entry(), entry(), entry()];
        await storage.append([a, b]);
        await storage.applyPage([placed(a, 1)], "e.1.c");
        await storage.setAside(b.id, REFUSAL);
        expect(await keep([a, b])).toBe(true);
        await storage.append([c, c]);
        await storage.applyPage([placed(a, 1), placed(d, 2)], "e.2.c");
        storage = await reopen(storage);
        const start = await storage.keptSum("this app");
        expect(idsOf(start?.since)).toEqual([c.id, d.id]);
        expect([...(idsOf(start?.here) ?? [])].sort()).toEqual([b.id, c.id]);
        expect(start?.n).toBe(4);
      });

      it("that goes on from entries which came while it was made", async () => {
        const [a, b] = [entry(), entry()];
        await storage.append([a, b]);
        expect(await keep([a])).toBe(true);
        expect(idsOf((await storage.keptSum("this app"))?.since)).toEqual([b.id]);
      });

      it("of nothing but what is held", async () => {
        const [a, b] = [entry(), entry()];
        await storage.append([a]);
        expect(await keep([a, b])).toBe(false);
        await storage.applyPage([placed({ ...a, body: { text: "another" } }, 1)], "e.1.c");
        expect(await keep([a])).toBe(false); // its body is another now
        expect(await storage.replaced()).toBe(1);
        expect(await storage.keptSum("this app")).toBeNull();
      });

      it("and gives it up when a body is replaced", async () => {
        const a = entry();
        await storage.append([a]);
        await keep([a]);
        await storage.applyPage([placed({ ...a, body: { text: "another" } }, 1)], "e.1.c");
        expect(await storage.keptSum("this app")).toBeNull();
      });

      it("and gives it up or names them all where many entries come at once", async () => {
        const [a, ...more] = Array.from({ length: 50 }, () => entry());
        await storage.append([a as Entry]);
        await keep([a as Entry]);
        await storage.applyPage(
          more.map((one, at) => placed(one, at + 1)),
          "e.49.c",
        );
        const start = await storage.keptSum("this app");
        expect(start === null || start.since.length === more.length).toBe(true);
      });
    });

    it("passes fields and kinds of newer apps through byte for byte", async () => {
      const strange = entry({
        v: 7,
        kind: "moonphase",
        body: JSON.parse('{"10":1,"9":[0.5,{"\u{1F95A}":"x"}],"__proto__":{"n":1},"ﬀ":null}'),
      });
      const newer = { ...strange, mood: { z: 1, a: [true] } };
      await storage.append([newer]);
      storage = await reopen(storage);
      expect((await storage.waiting()).map((one) => one.text)).toEqual([canonical(newer)]);
      expect((await storage.all()).map((one) => canonical(one.entry))).toEqual([canonical(newer)]);
    });

    it("adds nothing when the same entry comes again", async () => {
      const a = entry();
      await storage.append([a]);
      await storage.append([a, a]);
      expect(await storage.all()).toHaveLength(1);
      expect(await storage.apart()).toEqual([]);
    });

    it("keeps the first body of an id and puts another one apart", async () => {
      const a = entry();
      const other = { ...a, body: { text: "another" } };
      await storage.append([a]);
      await storage.append([other]);
      await storage.append([other]);
      expect((await storage.all()).map((one) => one.entry)).toEqual([a]);
      expect(await storage.apart()).toEqual([{ id: a.id, text: canonical(other) }]);
    });

    it("waits with what has no place, and with that only", async () => {
      const [a, b] = [entry(), entry()];
      await storage.append([a, b]);
      await storage.applyPage([placed(a, 4)], "e.4.c");
      expect(await storage.waiting()).toEqual([{ id: b.id, text: canonical(b) }]);
    });

    it("takes rows and cursor together, and knows them after a restart", async () => {
      const [a, b] = [entry(), entry()];
      expect(await storage.cursor()).toBeNull();
      await storage.applyPage([placed(a, 1), placed(b, 3)], "e.3.c");
      storage = await reopen(storage);
      expect(await storage.cursor()).toBe("e.3.c");
      expect((await storage.all()).map((one) => one.position)).toEqual([1, 3]);
      expect(await storage.waiting()).toEqual([]);
    });

    it("takes the server's body where its own differs, and keeps its own apart", async () => {
      const own = entry();
      const servers = { ...own, body: { text: "the server's" } };
      await storage.append([own]);
      await storage.applyPage([placed(servers, 1)], "e.1.c");
      expect((await storage.all()).map((one) => [one.entry, one.position])).toEqual([[servers, 1]]);
      expect(await storage.apart()).toEqual([{ id: own.id, text: canonical(own) }]);
      expect(await storage.waiting()).toEqual([]);
    });

    it("sets an entry aside with its reason: no longer offered, still held", async () => {
      const [a, b] = [entry(), entry()];
      await storage.append([a, b]);
      await storage.setAside(a.id, REFUSAL);
      storage = await reopen(storage);
      expect((await storage.waiting()).map((one) => one.id)).toEqual([b.id]);
      expect((await storage.all()).map((one) => one.aside)).toEqual([REFUSAL, null]);
    });

    it("sets nothing aside that the server has shown, nor what it does not hold", async () => {
      const a = entry();
      await storage.applyPage([placed(a, 1)], "e.1.c");
      await storage.setAside(a.id, REFUSAL);
      await storage.setAside("0199aaaa-aaaa-7aaa-8aaa-aaaaaaaaaaaa", REFUSAL);
      expect((await storage.all()).map((one) => one.aside)).toEqual([null]);
    });

    it("forgets a refusal once the server shows the entry after all", async () => {
      const a = entry();
      await storage.append([a]);
      await storage.setAside(a.id, REFUSAL);
      await storage.applyPage([placed(a, 2)], "e.2.c");
      expect((await storage.all()).map((one) => [one.aside, one.position])).toEqual([[null, 2]]);
    });

    it("offers what was set aside once more to each other version of the server, also after a restart", async () => {
      const [a, b, c, d] = [entry(), entry(), entry(), entry()];
      await storage.append([a, b, c, d]);
      await storage.setAside(b.id, REFUSAL);
      await storage.setAside(c.id, { ...REFUSAL, code: "purged" });
      await storage.setAside(d.id, { ...REFUSAL, code: "clash" });
      const told: Change[] = [];
      storage.watch((change) => told.push(change));
      const waiting = async () => (await storage.waiting()).map((one) => one.id);
      await storage.offerAgain("1.0.0");
      expect(await waiting()).toEqual([a.id, b.id]);
      expect(told).toEqual([{ kind: "rows", rows: [{ id: b.id, entry: b, position: null, aside: null }] }]);
      await storage.setAside(b.id, REFUSAL);
      storage = await reopen(storage);
      await storage.offerAgain("1.0.0");
      expect(await waiting()).toEqual([a.id]);
      await storage.offerAgain("1.1.0");
      expect(await waiting()).toEqual([a.id, b.id]);
      expect((await storage.all()).map((one) => one.entry)).toEqual([a, b, c, d]);
      expect((await storage.all()).map((one) => one.aside?.code)).toEqual([
        ...[undefined, undefined, "purged", "clash"],
      ]);
    });

    it("clears every place, refusal and the cursor at a reset, and no body", async () => {
      const [a, b, c] = [entry(), entry(), entry()];
      await storage.append([a, b]);
      await storage.setAside(b.id, REFUSAL);
      await storage.applyPage([placed(a, 1), placed(c, 2)], "e.2.c");
      await storage.resetPlaces();
      storage = await reopen(storage);
      expect(await storage.cursor()).toBeNull();
      expect((await storage.waiting()).map((one) => one.id)).toEqual([a.id, b.id, c.id]);
      expect((await storage.all()).map((one) => [one.entry, one.position, one.aside])).toEqual(
        [a, b, c].map((one) => [one, null, null]),
      );
    });

    it("reads chosen entries, passing over unknown ids", async () => {
      const [a, b] = [entry(), entry()];
      await storage.append([a, b]);
      expect((await storage.read([b.id, "nobody"])).map((one) => one.entry)).toEqual([b]);
    });

    it("tells what each write changed until told to stop", async () => {
      const told: Change[] = [];
      const stop = storage.watch((change) => told.push(change));
      const a = entry();
      const row = { id: a.id, entry: a };
      await storage.append([a]);
      await storage.setAside(a.id, REFUSAL);
      await storage.applyPage([placed(a, 1)], "e.1.c");
      await storage.resetPlaces();
      stop();
      await storage.append([entry()]);
      expect(told).toEqual([
        { kind: "rows", rows: [{ ...row, position: null, aside: null }] },
        { kind: "rows", rows: [{ ...row, position: null, aside: REFUSAL }] },
        { kind: "rows", rows: [{ ...row, position: 1, aside: null }] },
        { kind: "reset" },
      ]);
    });

    it("remembers the server's clock", async () => {
      expect(await storage.skew()).toBeNull();
      await storage.keepSkew(-86_400_000);
      storage = await reopen(storage);
      expect(await storage.skew()).toBe(-86_400_000);
    });

    it("remembers the server's last answers", async () => {
      expect(await storage.answer("/season/2026")).toBeNull();
      await storage.keepAnswer("/season/2026", { value: { year: 2026 }, got_ms: 5 });
      storage = await reopen(storage);
      expect(await storage.answer("/season/2026")).toEqual({ value: { year: 2026 }, got_ms: 5 });
    });

    it("probes without leaving a trace", async () => {
      await storage.probe();
      expect(await storage.all()).toEqual([]);
      expect(await storage.cursor()).toBeNull();
    });
  });
}
