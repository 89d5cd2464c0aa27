import { expect, it } from "vitest";
import { aliveAtSevenDays, leftWithinSevenDays } from "../../../pwa/src/book/first-week.ts";
import type { Move } from "../../../pwa/src/book/standing.ts";

const DAY_MS = 86_400_000;
const move = (day: number, source: string, target: string, n: number) =>
  ({ entry: `${day} ${target}`, atMs: day * DAY_MS, source, target, n }) as Move;

/** As tests/server/reports/test_brood.py: 12 hatched; one died, one culled, two missing and two sold in the week. */
it("tells by how they left those that did not live through their first week", () => {
  const moves = [
    move(0, "set", "hatched", 12),
    move(3, "brooding", "unaccounted", 2),
    move(3, "brooding", "culled", 1),
    move(4, "brooding", "died", 1),
    move(6, "brooding", "parted", 2),
    move(9, "brooding", "died", 1),
  ];
  const found = leftWithinSevenDays(moves, 8 * DAY_MS);
  expect([...found.left].sort()).toEqual([
    ["culled", 1],
    ["died", 1],
    ["missing", 2],
  ]);
  expect(found.of).toBe(10);
  expect(aliveAtSevenDays(moves, 8 * DAY_MS)).toEqual({ alive: 6, of: 10 });
  expect(leftWithinSevenDays(moves, 6 * DAY_MS).of).toBe(0);
  const foundAgain = [...moves, move(5, "unaccounted", "brooding", 2)];
  expect(leftWithinSevenDays(foundAgain, 8 * DAY_MS).left.get("missing")).toBeUndefined();
  const untold = (day: number) => [...moves, { ...move(day, "brooding", "parted", 1), cause: "not written" }];
  expect(leftWithinSevenDays(untold(7), 18 * DAY_MS)).toEqual({ left: new Map(), of: 0 });
  expect(leftWithinSevenDays(untold(8), 18 * DAY_MS).of).toBe(10);
});
