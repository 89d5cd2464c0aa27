import { describe, expect, it } from "vitest";
import { Lifeboat } from "../../../pwa/src/storage/lifeboat.ts";
import { MemoryBook } from "../../../pwa/src/storage/memory.ts";
import { NotSaved } from "../../../pwa/src/storage/not-saved.ts";
import { writer } from "./entries-of.ts";
import { shore } from "./shore.ts";

describe("the lifeboat", () => {
  it("carries entries over a restart and lands them in the book", async () => {
    const { entry } = writer();
    const [a, b] = [entry(), entry()];
    const there = shore();
    const boat = new Lifeboat(there, "home");
    expect([boat.take(b), boat.take(a)]).toEqual([true, true]);
    const storage = new MemoryBook("home");
    expect(await new Lifeboat(there, "home").land(storage)).toBe(2);
    expect((await storage.all()).map((one) => one.entry)).toEqual([a, b]);
    expect(there.length).toBe(0);
  });

  it("keeps its passengers while the book takes none", async () => {
    const { entry } = writer();
    const a = entry();
    const boat = new Lifeboat(shore(), "home");
    boat.take(a);
    const storage = new MemoryBook("home");
    storage.append = () => Promise.reject(new NotSaved("full"));
    await expect(boat.land(storage)).rejects.toBeInstanceOf(NotSaved);
    expect(boat.aboard()).toEqual([a]);
  });

  it("belongs to one holding", () => {
    const there = shore();
    new Lifeboat(there, "home").take(writer().entry());
    expect(new Lifeboat(there, "home-2").aboard()).toEqual([]);
    expect(new Lifeboat(there, "hom").aboard()).toEqual([]);
  });

  it("says so where localStorage refuses too", () => {
    const full = shore();
    full.setItem = () => {
      throw new DOMException("full", "QuotaExceededError");
    };
    expect(new Lifeboat(full, "home").take(writer().entry())).toBe(false);
    const none = new Lifeboat(null, "home");
    expect([none.take(writer().entry()), none.aboard()]).toEqual([false, []]);
  });

  it("passes over what it cannot read, without throwing it away", () => {
    const { entry } = writer();
    const there = shore();
    const a = entry();
    there.setItem("broodline.lifeboat.home.0000", "{half an en");
    const boat = new Lifeboat(there, "home");
    boat.take(a);
    expect(boat.aboard()).toEqual([a]);
    expect(there.length).toBe(2);
  });
});
