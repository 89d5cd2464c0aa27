import { afterEach, describe, expect, it } from "vitest";
import { record } from "../../../pwa/src/state/actions.ts";
import { copyBook, readCopy } from "../../../pwa/src/state/copy.ts";
import { openDesk } from "../../../pwa/src/state/desk.ts";
import { held } from "../../../pwa/src/state/held.ts";
import { openAtStart } from "../../../pwa/src/state/opening.ts";
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
    expect(await readCopy(`${copy.text}\n{"half": \n`)).toMatchObject({ n: 2, bad: [{ line: 4 }] });
    await readCopy(copy.text);
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
    expect(await readCopy(copy.text)).toEqual({ n: 2, bad: [] });
  });
});
