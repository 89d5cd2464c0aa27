import { describe, expect, it } from "vitest";
import type { Entry } from "../../../pwa/src/book/entries.ts";
import { fold } from "../../../pwa/src/book/fold.ts";
import { cutInMind, powerCutsAt } from "../../../pwa/src/book/power-cuts.ts";
import { turningAt } from "../../../pwa/src/book/turning.ts";
import { entriesOf, idOf, written } from "./entries-of.ts";

const START = Date.UTC(2026, 2, 1, 8);
const HOUR = 3_600_000;
const LOFT = idOf(1);
const CABINET = idOf(2);

function bookOf(happened: readonly (readonly [hours: number, kind: string, body: object])[]) {
  const entries: Entry[] = entriesOf([
    written(1, "place", { name: "Loft box", role: "incubator" }, START),
    written(2, "place", { name: "Cabinet", role: "incubator" }, START),
    ...happened.map(([hours, kind, body], i) => written(10 + i, kind, body, START + hours * HOUR)),
  ]);
  return fold(entries);
}

describe("turning", () => {
  it("tells the side that is up, the next one, and how often today, of this machine since these eggs were set", () => {
    const standing = bookOf([
      [-2, "turned", { place: LOFT, side: "o" }],
      [1, "turned", { place: LOFT, side: "x" }],
      [5, "turned", { place: LOFT, side: "o" }],
      [6, "turned", { place: CABINET, side: "x" }],
      [30, "turned", { place: LOFT }],
    ]);
    const at = (hours: number) => START + hours * HOUR;
    expect(turningAt(standing, LOFT, START, at(7))).toEqual({
      today: 2,
      lastMs: at(30),
      side: "o",
      next: "x",
    });
    expect(turningAt(standing, LOFT, START, at(31)).today).toBe(1);
    expect(turningAt(standing, LOFT, at(40), at(41))).toEqual({
      today: 0,
      lastMs: null,
      side: null,
      next: "x",
    });
  });
});

describe("power cuts", () => {
  const from = new Date(START).toISOString();
  const until = new Date(START + 2 * HOUR).toISOString();

  it("belong to the machines they name, or to all", () => {
    const standing = bookOf([
      [0, "outage", { from, places: [CABINET] }],
      [1, "outage", { from: until }],
    ]);
    expect(powerCutsAt(standing, LOFT).map((cut) => [cut.fromMs, cut.everywhere])).toEqual([
      [START + 2 * HOUR, true],
    ]);
    expect(powerCutsAt(standing, CABINET).map((cut) => cut.everywhere)).toEqual([false, true]);
  });

  it("are kept in mind while they last, and until the eggs are candled again", () => {
    const over = powerCutsAt(bookOf([[2, "outage", { from, until }]]), LOFT);
    expect(cutInMind(over, 7, START + 6 * 24 * HOUR)?.untilMs).toBe(START + 2 * HOUR);
    expect(cutInMind(over, 7, START + 8 * 24 * HOUR)).toBeNull();
    const going = powerCutsAt(bookOf([[0, "outage", { from }]]), LOFT);
    expect(cutInMind(going, 7, START + 30 * 24 * HOUR)?.untilMs).toBeNull();
    expect(cutInMind([], 7, START)).toBeNull();
  });
});
