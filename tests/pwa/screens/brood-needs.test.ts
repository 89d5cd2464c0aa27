import { describe, expect, it } from "vitest";
import { amount } from "../../../pwa/src/screens/amounts.ts";
import { feedFor, needsAt, nextChangeMs } from "../../../pwa/src/screens/brood-needs-view.ts";

const DAY_MS = 86_400_000;
const NOW_MS = 1000 * DAY_MS;
const WEEKS_MS = 28 * DAY_MS;
/** Half a day older than so many days. */
const chicks = (n: number, ageDays: number, species = "chicken") => {
  return { n, bornMs: NOW_MS - (ageDays + 0.5) * DAY_MS, species };
};

describe("what a brood needs together", () => {
  it("is the sum over ages, and nothing where one of them was not read", () => {
    // 24 chicks in week 1: 0.25 ft² by FACT, 0.5 by the student text, 180 cm² by NSW; feeder 1 in, drinker half an inch.
    const alone = needsAt([chicks(24, 3)], NOW_MS);
    expect(alone.floorM2?.map((end) => Number(end.toFixed(3)))).toEqual([0.432, 1.115]);
    expect(alone.feederCm?.[0]).toBeCloseTo(24 * 2.54, 6);
    const both = needsAt([chicks(24, 3), chicks(10, 50)], NOW_MS);
    expect(both.floorM2?.[1]).toBeCloseTo(1.115 + 10 * 2 * 0.09290304, 3);
    expect(needsAt([chicks(24, 3), chicks(1, 3, "peafowl")], NOW_MS).floorM2).toBeNull();
    expect(needsAt([], NOW_MS).feedG).toBeNull();
  });

  it("changes when the ranges do, not when one source among them changes within them", () => {
    const inDays = (groups: ReturnType<typeof chicks>[]) => {
      const ms = nextChangeMs(groups, NOW_MS);
      return ms === null ? null : (ms - NOW_MS) / DAY_MS;
    };
    // On day 7 FACT goes from 0.25 to 0.5 ft², which the student text asks for anyway; on day 14 all ask for more.
    expect(inDays([chicks(24, 3)])).toBe(10.5);
    expect(inDays([chicks(24, 3), chicks(10, 13)])).toBe(0.5);
    expect(inDays([chicks(10, 200)])).toBeNull();
  });

  it("buys four weeks' feed as a range, and more for meat birds", () => {
    const slow = feedFor([chicks(12, 28)], NOW_MS, NOW_MS + WEEKS_MS);
    const fast = feedFor([chicks(12, 28)], NOW_MS, NOW_MS + WEEKS_MS, "fast");
    expect(slow && fast && slow[0] < slow[1] && slow[1] < fast[0]).toBe(true);
    // Jensen's large turkeys eat 22.2 lb from week 16 to 20: ten of them 101 kg, by one source, so a tenth either way.
    const turkeys = feedFor([chicks(10, 112, "turkey")], NOW_MS, NOW_MS + WEEKS_MS);
    expect(turkeys?.map((end) => Math.round(end / 1000))).toEqual([91, 111]);
    // 200 mL a week by both columns of one table.
    const water = needsAt([chicks(12, 3)], NOW_MS).waterMl;
    expect(water?.map((end) => Math.round(end))).toEqual([309, 377]);
    expect(feedFor([chicks(12, 28, "duck")], NOW_MS, NOW_MS + WEEKS_MS)).toBeNull();
  });

  it("is said in the region's units, never finer than it is", () => {
    expect(amount([0.432, 1.115], "area", "uk")).toBe("0.4 to 1.2 m²");
    expect(amount([0.432, 1.115], "area", "us")).toBe("4 to 13 ft²");
    expect(amount([60.96, 60.96], "length", "uk")).toBe("60 to 61 cm");
    expect(amount([60.96, 60.96], "length", "us")).toBe("24 in");
    expect(amount([24_100, 41_300], "feed", "uk")).toBe("24 to 42 kg");
    expect(amount([857, 2016], "water", "uk")).toBe("0.8 to 2.1 L");
    expect(amount(null, "water", "uk")).toBe("not read");
  });
});
