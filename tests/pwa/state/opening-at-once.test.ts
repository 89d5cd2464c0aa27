import { afterEach, describe, expect, it, vi } from "vitest";
import { canonical } from "../../../pwa/src/book/wire.ts";
import { record } from "../../../pwa/src/state/actions.ts";
import { openDesk } from "../../../pwa/src/state/desk.ts";
import { held } from "../../../pwa/src/state/held.ts";
import { heedTab, lay, openAtStart, otherBooks, syncState, wake } from "../../../pwa/src/state/opening.ts";
import type { BookStorage } from "../../../pwa/src/storage/port.ts";
import { type SyncTools, startSync } from "../../../pwa/src/sync/loop.ts";
import { writer } from "../storage/entries-of.ts";
import { servers } from "./pairing-server.ts";
import { browser, killApp } from "./surroundings.ts";

const texts = () => [...held.value.entries.values()].map((one) => one.entry.body.text);
const textsIn = async (book: BookStorage) => (await book.all()).map((row) => row.entry.body.text);
const ended = () => vi.waitFor(() => expect(syncState.value?.busy).toBe(false), { timeout: 4500 });

/** One lock for all, as in a browser; each waits for those before it. */
function browserLocks() {
  let queue: Promise<unknown> = Promise.resolve();
  const request = (_name: string, a: unknown, b?: unknown) => {
    const turn = queue.then(() => ((b ?? a) as (lock: unknown) => Promise<unknown>)({}));
    queue = turn.catch(() => undefined);
    return turn;
  };
  return { request } as unknown as Pick<LockManager, "request">;
}

/** Counts the loops that were begun and are not stopped. */
function counted(around: ReturnType<typeof browser>["around"]) {
  const running = new Set<object>();
  const begin = (tools: SyncTools) => {
    const sync = startSync(tools);
    running.add(sync);
    return {
      ...sync,
      stop: () => {
        running.delete(sync);
        return sync.stop();
      },
    };
  };
  return { running, around: { ...around, startSync: begin } };
}

afterEach(killApp);

describe("opened twice at once", () => {
  it("begins one book, which takes the taps, when the page is looked at while it starts", async () => {
    const { around, books } = browser();
    await Promise.all([openAtStart(around), wake(around), wake(around)]);
    expect([...books.keys()]).toEqual([openDesk().card.id]);
    expect(otherBooks.value).toEqual([]);
  });

  it("leaves no second loop running when a paired book starts", async () => {
    const { around } = browser(servers("farm", true).fetch);
    await openAtStart(around);
    await killApp();
    const { running, around: watched } = counted(around);
    await Promise.all([openAtStart(watched), wake(watched)]);
    expect(running.size).toBe(1);
    const { card } = openDesk();
    await Promise.all([
      lay(watched, { ...card, id: "one" }, "greeted"),
      lay(watched, { ...card, id: "two" }, "greeted"),
    ]);
    expect([openDesk().card.id, running.size]).toEqual(["two", 1]);
  });

  it("begins one book in two tabs of a first start", async () => {
    const { around } = browser();
    const locks = browserLocks();
    const cards = await around.shelf.cards();
    expect(cards).toEqual([]);
    vi.resetModules(); // the other tab: the same app with a memory of its own
    const other = await import("../../../pwa/src/state/opening.ts");
    const otherDesk = await import("../../../pwa/src/state/desk.ts");
    await Promise.all([openAtStart({ ...around, locks }), other.openAtStart({ ...around, locks })]);
    expect(await around.shelf.cards()).toHaveLength(1);
    expect(otherDesk.openDesk().card.id).toBe(openDesk().card.id);
  });
});

describe("two holdings in one browser", () => {
  it("keep their entries apart where another tab was paired with the second one", async () => {
    const [a, b] = [servers("farm-a", true), servers("farm-b", true)];
    b.model.epoch = "epoch-b";
    b.model.store(canonical(writer("import-b", undefined, 77).entry({ body: { text: "of B" } })));
    let now = a;
    const { around, books } = browser((input, init) => now.fetch(input, init));
    await openAtStart(around);
    await record("note", { text: "of A" });
    openDesk().sync?.ask("keeper");
    await vi.waitFor(() => expect(a.model.rows).toHaveLength(1), { timeout: 4500 });
    await ended();
    now = b; // the cookie and the open book are the other tab's now; this one was not told
    await around.shelf.put({ ...openDesk().card, id: "farm-b", device: "given-b" });
    for (let rounds = 1; rounds <= 3; rounds += 1) {
      const before = Number(syncState.value?.busy);
      let changes = before;
      const stop = syncState.subscribe((state) => {
        if (Number(state?.busy) !== changes % 2) changes += 1;
      });
      openDesk().sync?.ask("visible");
      await vi.waitFor(() => expect(changes).toBeGreaterThanOrEqual(before + 2), { timeout: 4500 });
      stop();
    }
    expect(syncState.value?.fault).toEqual({ code: "elsewhere" });
    expect(b.model.rows).toHaveLength(1);
    expect(await textsIn(around.bookOf("farm-a"))).toEqual(["of A"]);
    expect(books.has("farm-b")).toBe(false);
  });

  it("keep their entries apart where the sign-in changes between the greeting and what follows it", async () => {
    const [a, b] = [servers("farm-a", true), servers("farm-b", true)];
    b.model.store(canonical(writer("import-b", undefined, 77).entry({ body: { text: "of B" } })));
    const { around } = browser((input, init) =>
      (String(input).startsWith("/api/v1/me") ? a : b).fetch(input, init),
    );
    await openAtStart(around);
    await record("note", { text: "of A" });
    openDesk().sync?.ask("keeper");
    await vi.waitFor(() => expect(syncState.value?.fault).toEqual({ code: "elsewhere" }), { timeout: 4500 });
    expect([b.model.rows.length, await textsIn(openDesk().storage)]).toEqual([1, ["of A"]]);
  });

  it("keep their entries apart in memory, however late storage answers for the first", async () => {
    const { around } = browser(servers("farm-a", true).fetch);
    await openAtStart(around);
    const { id } = await record("note", { text: "of A" });
    await ended();
    const { card, storage } = openDesk();
    const late: (() => void)[] = [];
    const slowly =
      <A extends unknown[], T>(real: (...args: A) => Promise<T>) =>
      async (...args: A) => {
        const rows = await real(...args);
        await new Promise<void>((go) => late.push(go));
        return rows;
      };
    storage.all = slowly(storage.all.bind(storage));
    storage.read = slowly(storage.read.bind(storage));
    await storage.resetPlaces(); // as sync does where the server's history is another one
    const heeding = [
      heedTab(around, { kind: "rows", holding: card.id, ids: [id] }),
      heedTab(around, { kind: "reset", holding: card.id }),
    ];
    await vi.waitFor(() => expect(late).toHaveLength(3));
    await lay(around, { ...card, id: "farm-b" }, "greeted");
    for (const go of late) go();
    await Promise.all(heeding);
    await Promise.resolve();
    expect([openDesk().card.id, texts(), held.value.onlyHere.size]).toEqual(["farm-b", [], 0]);
  });
});
