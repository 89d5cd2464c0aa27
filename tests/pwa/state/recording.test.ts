import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { record } from "../../../pwa/src/state/actions.ts";
import { attention, connection, onlyHere } from "../../../pwa/src/state/connection.ts";
import { openDesk } from "../../../pwa/src/state/desk.ts";
import { held } from "../../../pwa/src/state/held.ts";
import { openAtStart } from "../../../pwa/src/state/opening.ts";
import { boardUnsaved, savingFault } from "../../../pwa/src/state/recording.ts";
import { standing } from "../../../pwa/src/state/standing.ts";
import { NotSaved } from "../../../pwa/src/storage/not-saved.ts";
import type { BookStorage } from "../../../pwa/src/storage/port.ts";
import { browser, killApp, NOW_MS } from "./surroundings.ts";

const notes = () => standing.value.heads.note?.map((head) => head.body.text) ?? [];

beforeEach(async () => {
  await killApp();
  vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout"] });
});
afterEach(() => {
  vi.useRealTimers();
});

/** Storage that fails so many times, then works. */
function failing(storage: BookStorage, times: number): void {
  let left = times;
  const append = storage.append.bind(storage);
  storage.append = (entries) => (left-- > 0 ? Promise.reject(new NotSaved("full")) : append(entries));
}

describe("a tap", () => {
  it("is on the screen before storage has answered", async () => {
    await openAtStart(browser().around);
    const saving = record("note", { text: "frost" });
    expect(notes()).toEqual(["frost"]);
    expect([...held.value.entries.values()].map((one) => one.saved)).toEqual([false]);
    await saving;
    expect([...held.value.entries.values()].map((one) => one.saved)).toEqual([true]);
  });

  it("stays on the screen when it could not be saved, says so, and is saved as soon as that works", async () => {
    const { around } = browser();
    await openAtStart(around);
    const { storage, lifeboat } = openDesk();
    failing(storage, 2);
    let saved = false;
    const saving = record("note", { text: "frost" }).then(() => {
      saved = true;
    });
    await vi.advanceTimersByTimeAsync(10);
    expect(notes()).toEqual(["frost"]);
    expect(savingFault.value).toBe("full");
    expect(connection.value).toEqual({ kind: "saving", n: 1 }); // not called "on this phone"
    expect(attention.value).toEqual([{ kind: "not_saved", n: 1, code: "full" }]);
    expect(lifeboat.aboard()).toHaveLength(1);
    expect(saved).toBe(false);
    await vi.advanceTimersByTimeAsync(7000);
    await saving;
    expect(lifeboat.aboard()).toEqual([]);
    expect([savingFault.value, attention.value]).toEqual([null, []]);
    expect(await storage.all()).toHaveLength(1);
  });

  it("whose save was under way when the page went is there at the next start, and only once", async () => {
    const first = browser();
    await openAtStart(first.around);
    openDesk().storage.append = () => new Promise(() => undefined);
    void record("note", { text: "frost" });
    boardUnsaved();
    const second = browser();
    await second.around.shelf.put(openDesk().card);
    await killApp();
    await openAtStart({ ...second.around, shore: first.around.shore });
    expect(notes()).toEqual(["frost"]);
    expect(await openDesk().storage.all()).toHaveLength(1);
    expect(openDesk().lifeboat.aboard()).toEqual([]);
  });

  it("that was only in the lifeboat when the app was killed is there at the next start", async () => {
    const first = browser();
    await openAtStart(first.around);
    failing(openDesk().storage, Number.POSITIVE_INFINITY);
    void record("note", { text: "frost" });
    await vi.advanceTimersByTimeAsync(10);
    const second = browser();
    await second.around.shelf.put(openDesk().card);
    await killApp();
    await openAtStart({ ...second.around, shore: first.around.shore });
    expect(notes()).toEqual(["frost"]);
    expect(await openDesk().storage.all()).toHaveLength(1);
  });
});

describe("the two plain states", () => {
  it("are counted from the entries themselves", async () => {
    const { around, clock } = browser();
    await openAtStart(around);
    expect(connection.value).toEqual({ kind: "new" });
    await record("note", { text: "frost" }, { at: new Date(NOW_MS - 86_400_000) });
    clock.now_ms += 60_000;
    const later = await record("note", { text: "snow" });
    // "since" tells when it was tapped, not the day the keeper said it happened on
    expect(connection.value).toEqual({ kind: "only_here", n: 2, oldest_ms: NOW_MS });
    const { storage } = openDesk();
    const [first] = (await storage.waiting()).filter((one) => one.id !== later.id);
    await storage.applyPage(
      [{ ...first, id: first?.id ?? "", text: first?.text ?? "", position: 1 }],
      "e.1.c",
    );
    expect(onlyHere.value).toEqual({ n: 1, oldest_ms: NOW_MS + 60_000 });
  });

  it("name what the server will not take, in its words, and count it as only here", async () => {
    await openAtStart(browser().around);
    const { id } = await record("note", { text: "frost" });
    const refusal = { code: "envelope", message: "too odd", remedy: "write it again" };
    await openDesk().storage.setAside(id, refusal);
    expect(attention.value).toEqual([{ kind: "set_aside", id, refusal }]);
    expect(onlyHere.value.n).toBe(1);
  });
});
