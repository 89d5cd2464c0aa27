import { describe, expect, it } from "vitest";
import { amount } from "../../../pwa/src/screens/amounts.ts";
import { feedFor, needsIn, nextChangeIn } from "../../../pwa/src/screens/brood-needs-view.ts";

const chicks = (n: number, ageDays: number, species = "chicken") => ({ n, ageDays, species });

describe("what a brood needs together", () => {
  it("is the sum over ages, and nothing where one of them was not read", () => {
    // 24 chicks in week 1: 0.25 ft² by FACT, 0.5 by the student text, 180 cm² by NSW; feeder 1 in, drinker half an inch.
    const alone = needsIn([chicks(24, 3)], 0);
    expect(alone.floorM2?.map((end) => Number(end.toFixed(3)))).toEqual([0.432, 1.115]);
    expect(alone.feederCm?.[0]).toBeCloseTo(24 * 2.54, 6);
    const both = needsIn([chicks(24, 3), chicks(10, 50)], 0);
    expect(both.floorM2?.[1]).toBeCloseTo(1.115 + 10 * 2 * 0.09290304, 3);
    expect(needsIn([chicks(24, 3), chicks(1, 3, "peafowl")], 0).floorM2).toBeNull();
    expect(needsIn([], 0).feedG).toBeNull();
  });

  it("changes when the first source gives another room", () => {
    expect(nextChangeIn([chicks(24, 3)])).toBe(4); // day 7
    expect(nextChangeIn([chicks(24, 3), chicks(10, 13)])).toBe(1); // day 14
    expect(nextChangeIn([chicks(10, 200)])).toBeNull();
  });

  it("buys four weeks' feed as a range, and more for meat birds", () => {
    const slow = feedFor([chicks(12, 28)], 28);
    const fast = feedFor([chicks(12, 28)], 28, "fast");
    expect(slow && fast && slow[0] < slow[1] && slow[1] < fast[0]).toBe(true);
    expect(feedFor([chicks(12, 28, "duck")], 28)).toBeNull();
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
