import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import type { Entry } from "../../../pwa/src/book/entries.ts";
import { fold } from "../../../pwa/src/book/fold.ts";
import { canonical } from "../../../pwa/src/book/wire.ts";
import { record, undo } from "../../../pwa/src/state/actions.ts";
import { openDesk } from "../../../pwa/src/state/desk.ts";
import { held, isWhole } from "../../../pwa/src/state/held.ts";
import { openAtStart } from "../../../pwa/src/state/opening.ts";
import { entries, standing } from "../../../pwa/src/state/standing.ts";
import { lookLive, take } from "../../../pwa/src/state/tally.ts";
import type { MemoryBook } from "../../../pwa/src/storage/memory.ts";
import type { KeptStart } from "../../../pwa/src/storage/port.ts";
import { longBook } from "./long-book.ts";
import { browser, killApp } from "./surroundings.ts";

const { entries: written, lots, sets, place } = longBook(200);
const QUIET_MS = 10_000;

/** A phone whose storage lets no page of the book through until `letGo`. */
async function phone() {
  const { around, books } = browser();
  await openAtStart(around);
  const book = books.get(openDesk().card.id) as MemoryBook;
  await book.append(written);
  const rests: (() => void)[] = [];
  let free = true;
  const held_up = {
    ...around,
    rest: () => (free ? Promise.resolve() : new Promise<void>((done) => void rests.push(done))),
  };
  const keptSum = vi.spyOn(book, "keptSum");
  const all = vi.spyOn(book, "all");
  return {
    book,
    all,
    keptSum,
    around: held_up,
    async start(reader = "this app") {
      await killApp();
      all.mockClear();
      await openAtStart({ ...held_up, reader });
    },
    holdUp() {
      free = false;
    },
    async letThrough(times: number) {
      for (let n = 0; n < times; n++) {
        rests.shift()?.();
        await vi.advanceTimersByTimeAsync(0);
      }
    },
    async letGo() {
      free = true;
      for (const done of rests.splice(0)) done();
      await vi.waitFor(() => expect(isWhole.value).toBe(true));
    },
  };
}

/** A phone that was open for a while: its next start finds a kept sum, and reads no further than that. */
async function phoneWithSum() {
  const made = await phone();
  await made.start();
  await vi.advanceTimersByTimeAsync(QUIET_MS);
  await vi.waitFor(async () => expect(await made.book.keptSum("this app")).not.toBeNull());
  made.holdUp();
  return made;
}

const everything = async (book: MemoryBook) => (await book.all()).map((row) => row.entry);

/** What a screen can see, whichever way it came about. */
function figures() {
  const { heads: _heads, lots: all, ...rest } = standing.value;
  return { ...rest, lots: new Map(all) };
}

function figuresOf(book: readonly Entry[]) {
  const { heads: _heads, ...rest } = fold(book);
  return rest;
}

beforeEach(() => void vi.useFakeTimers());
afterEach(async () => {
  await killApp();
  vi.useRealTimers();
});

describe("a long book", () => {
  it("shows its figures before its entries are read, and those of the fold once they are", async () => {
    const { book, all, start, letGo } = await phoneWithSum();
    await start();
    expect([isWhole.value, all.mock.calls.length, entries.value.length < 1200]).toEqual([false, 0, false]);
    expect(held.value.n).toBe(written.length);
    expect(figures()).toStrictEqual(figuresOf(written));
    await letGo();
    expect(standing.value).toStrictEqual(fold(await everything(book)));
    expect(entries.value).toHaveLength(written.length);
  });

  it("shows taps while its entries are still read, and counts each of them once", async () => {
    const { book, start, letGo } = await phoneWithSum();
    await start();
    const [lot = "", setting = ""] = [lots[3], sets[3]];
    await lookLive({ setting, lot, day: 7 });
    const clear = await take({ lot, to: "clear", day: 7, why: "candled" });
    await record("air", { place, dry_c: 37.7 });
    expect(figures()).toStrictEqual(figuresOf(await everything(book)));
    await undo(clear.id);
    expect(figures()).toStrictEqual(figuresOf(await everything(book)));
    await letGo();
    expect(standing.value).toStrictEqual(fold(await everything(book)));
  });

  it("is not read on while a tap is being saved, unless it cannot be saved", async () => {
    const { book, start, letThrough, letGo } = await phoneWithSum();
    await start();
    const page = vi.spyOn(book, "page");
    vi.spyOn(book, "append").mockReturnValue(new Promise(() => undefined));
    void lookLive({ setting: sets[3] ?? "", lot: lots[3] ?? "", day: 7 });
    await letThrough(100);
    expect(page).not.toHaveBeenCalled();
    await letThrough(1);
    expect(page).toHaveBeenCalledOnce();
    await letGo();
  });

  it("works what came after the sum into it at the next start", async () => {
    const { book, all, start } = await phoneWithSum();
    await start();
    await take({ lot: lots[5] ?? "", to: "clear", day: 7, why: "candled" });
    await start();
    expect([isWhole.value, all.mock.calls.length]).toEqual([false, 0]);
    expect(held.value.onlyHere.size).toBe(written.length + 1);
    expect(figures()).toStrictEqual(figuresOf(await everything(book)));
  });

  it("folds where only the fold can tell, as soon as every entry is read", async () => {
    const { book, start, letGo } = await phoneWithSum();
    await start();
    const family = await record("family", { name: "Hazel", species: "chicken", breed: "Marans" });
    expect(standing.value.families.has(family.id)).toBe(false);
    await letGo();
    expect(standing.value.families.has(family.id)).toBe(true);
    expect(standing.value).toStrictEqual(fold(await everything(book)));
    await start();
    expect(isWhole.value).toBe(true); // the sum cannot be gone on from, so the book was folded first
  });

  it("takes back an earlier entry once it knows what amends it", async () => {
    const { book, start, letGo } = await phoneWithSum();
    await start();
    const look = written.find((entry) => entry.kind === "looked")?.id ?? "";
    const undone = undo(look);
    await letGo();
    await undone;
    expect((await everything(book)).some((entry) => entry.void && entry.amends === look)).toBe(true);
    expect(standing.value).toStrictEqual(fold(await everything(book)));
  });

  it("adds what a server sends while it reads, and what is known twice counts once", async () => {
    const { book, start, letGo } = await phoneWithSum();
    await start();
    const [known] = written.slice(-1);
    const other = { ...written[2], id: "0199aaaa-aaaa-7aaa-8aaa-aaaaaaaaaaaa", device: "other" } as Entry;
    const rows = [known as Entry, other].map((entry, at) => {
      return { id: entry.id, text: canonical(entry), position: at + 1 };
    });
    await book.applyPage(rows, "e.2.c");
    await letGo();
    expect(standing.value).toStrictEqual(fold(await everything(book)));
    expect(held.value.n).toBe(written.length + 1);
    expect(held.value.onlyHere.size).toBe(written.length - 1);
  });

  it("gives no id twice that the kept sum has seen", async () => {
    const { start } = await phoneWithSum();
    await start();
    const { device } = openDesk().card;
    const { id } = await record("note", { text: "frost" });
    await start();
    const again = await record("note", { text: "frost again" });
    expect(again.id > id && again.device === device).toBe(true);
  });
});

describe("a kept sum is passed over where", () => {
  const damage: Record<string, (texts: readonly string[]) => readonly string[]> = {
    "a piece is lost": (texts) => texts.slice(0, -1),
    "a figure is another": (texts) => texts.map((text) => text.replace('["set",11]', '["set",12]')),
    "it is no standing": () => ["{}"],
  };

  it.each(Object.keys(damage))("%s", async (name) => {
    const { book, keptSum, all, start } = await phoneWithSum();
    const found = (await book.keptSum("this app")) as KeptStart;
    const texts = damage[name]?.(found.sum.texts) ?? [];
    expect(texts).not.toEqual(found.sum.texts);
    keptSum.mockResolvedValue({ ...found, sum: { ...found.sum, texts } });
    await start();
    expect([isWhole.value, all.mock.calls.length]).toEqual([true, 1]);
    expect(standing.value).toStrictEqual(fold(await everything(book)));
  });

  it("another app kept it", async () => {
    const { all, start } = await phoneWithSum();
    await start("a newer app");
    expect([isWhole.value, all.mock.calls.length]).toEqual([true, 1]);
  });
});
