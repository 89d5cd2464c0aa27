import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { trickle } from "../../../pwa/src/state/trickle.ts";
import type { StoredEntry } from "../../../pwa/src/storage/port.ts";
import { writer } from "../storage/entries-of.ts";

const { entry } = writer();
const row = (): StoredEntry => {
  const one = entry();
  return { id: one.id, entry: one, position: 1, aside: null };
};

beforeEach(() => {
  vi.useFakeTimers({ now: 0 });
});
afterEach(() => {
  vi.useRealTimers();
});

it("passes the first page at once and the others once a second, in order, none twice", () => {
  const passed: string[][] = [];
  const pages = trickle((rows) => passed.push(rows.map((one) => one.id)), Date.now);
  const rows = Array.from({ length: 40 }, row);
  for (const [i, one] of rows.entries()) {
    pages.add([one]);
    vi.advanceTimersByTime(i < 39 ? 100 : 2000);
  }
  expect(passed.flat()).toEqual(rows.map((one) => one.id));
  expect(passed[0]).toHaveLength(1);
  expect(passed.length).toBeLessThanOrEqual(6);
});

it("passes at once what waits when told to, and nothing after", () => {
  const passed: number[] = [];
  const pages = trickle((rows) => passed.push(rows.length), Date.now);
  pages.add([row()]);
  pages.add([row()]);
  pages.add([row()]);
  pages.flush();
  pages.flush();
  vi.advanceTimersByTime(5000);
  expect(passed).toEqual([1, 2]);
});

it("does not wait for years when the clock was set back", () => {
  const passed: number[] = [];
  const pages = trickle((rows) => passed.push(rows.length), Date.now);
  pages.add([row()]);
  vi.setSystemTime(-400 * 86_400_000);
  pages.add([row()]);
  expect(passed).toEqual([1, 1]);
});
