import { afterEach, describe, expect, it, vi } from "vitest";
import { record } from "../../../pwa/src/state/actions.ts";
import { copyBook, copyOf, lookInto, takeIn } from "../../../pwa/src/state/copy.ts";
import { openDesk } from "../../../pwa/src/state/desk.ts";
import { held } from "../../../pwa/src/state/held.ts";
import { openAtStart } from "../../../pwa/src/state/opening.ts";
import { MemoryBook } from "../../../pwa/src/storage/memory.ts";
import { NotSaved } from "../../../pwa/src/storage/not-saved.ts";
import { browser, killApp } from "./surroundings.ts";

afterEach(killApp);

describe("a copy", () => {
  it("holds every entry as a line, and reading it twice adds nothing", async () => {
    const one = browser();
    await openAtStart(one.around);
    await record("note", { text: "frost\nand snow" });
    await record("note", { text: "Küken 🐣" });
    const copy = await copyBook(one.clock.now_ms);
    expect([copy.n, copy.name]).toEqual([2, "broodline-2026-03-08.jsonl"]);
    await killApp();
    await openAtStart(browser().around);
    const found = await lookInto(`${copy.text}\n{"half": \n`);
    expect(found).toMatchObject({ bad: [{ line: 4 }], other: null });
    expect([held.value.n, await takeIn(found), held.value.n]).toEqual([0, 2, 2]);
    const again = await lookInto(copy.text);
    expect([again.other, await takeIn(again)]).toEqual([null, 2]);
    expect([...held.value.entries.values()].map((row) => row.entry.body.text)).toEqual([
      "frost\nand snow",
      "Küken 🐣",
    ]);
  });

  it("can be made of what the page remembers, once storage cannot even be read", async () => {
    const one = browser();
    await openAtStart(one.around);
    await record("note", { text: "frost" });
    const { storage } = openDesk();
    storage.all = () => Promise.reject(new NotSaved("refused"));
    storage.append = () => Promise.reject(new NotSaved("refused"));
    void record("note", { text: "snow" }); // on the screen only
    const copy = await copyBook(one.clock.now_ms);
    const lines = copy.text.trimEnd().split("\n");
    expect(lines.map((line) => JSON.parse(line).body.text)).toEqual(["frost", "snow"]);
    await killApp();
    await openAtStart(browser().around);
    const found = await lookInto(copy.text);
    expect([found.bad, await takeIn(found)]).toEqual([[], 2]);
  });

  it("of another holding is told before anything of it is taken in, however its birds have travelled", async () => {
    const [ours, theirs] = [browser(), browser()];
    theirs.clock.now_ms += 60_000; // the chance of both repeats: other ids
    await openAtStart(theirs.around);
    await record("keeper", { holding: "Gorse Bank", zone: "UTC", temperature: "C", mass: "g" });
    await record("note", { text: "their hen, sold to us" });
    const copy = (await copyBook(theirs.clock.now_ms)).text;
    const bird = copy.split("\n").filter((line) => line.includes("sold to us"));
    const strangers = copy.split("\n").filter((line) => line.includes("Gorse Bank"));
    await killApp();
    await openAtStart(ours.around);
    await record("note", { text: "before the holding had a name" });
    expect((await lookInto(copy)).other).toEqual({ name: "Gorse Bank" });
    expect((await lookInto(bird.join("\n"))).other).toEqual({ name: "" });
    const early = (await copyBook(ours.clock.now_ms)).text;
    await takeIn(await lookInto(bird.join("\n"))); // as the keeper says
    await record("keeper", { holding: "Alder Foot", zone: "UTC", temperature: "C", mass: "g" });
    const whole = (await copyBook(ours.clock.now_ms)).text;
    for (const text of [copy, strangers.join("\n")])
      expect((await lookInto(text)).other).toEqual({ name: "Gorse Bank" });
    for (const text of [early, whole, bird.join("\n"), ""]) expect((await lookInto(text)).other).toBeNull();
    expect(held.value.n).toBe(3);
    expect(await takeIn(await lookInto(copy))).toBe(2);
    expect(held.value.n).toBe(4);
  });

  it("goes into the book that it was held against, though another lies open by then", async () => {
    const one = browser();
    await openAtStart(one.around);
    await record("note", { text: "frost" });
    const { text } = await copyBook(one.clock.now_ms);
    await killApp();
    await openAtStart(browser().around);
    const found = await lookInto(text);
    await killApp();
    await openAtStart(browser().around);
    await takeIn(found);
    expect([held.value.n, (await found.into.all()).length]).toEqual([0, 1]);
  });

  it("of a book beside the open one closes that book again, also where it cannot be read", async () => {
    await openAtStart(browser().around);
    const beside = new MemoryBook("beside");
    const close = vi.spyOn(beside, "close");
    expect((await copyOf(beside, "Beside", 0)).n).toBe(0);
    expect(close).toHaveBeenCalledTimes(1);
    beside.all = () => Promise.reject(new NotSaved("refused"));
    await expect(copyOf(beside, "Beside", 0)).rejects.toThrow(NotSaved);
    expect(close).toHaveBeenCalledTimes(2);
  });
});
