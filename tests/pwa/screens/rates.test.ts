// @vitest-environment happy-dom
// Counted by hand from the rules of the book's rates: examined = set - cracked - rotten - removed - missing eggs - eggs
// nobody judged; fertile = examined - clear - infertile; hatched = every chick, whatever became of it.
import { describe, expect, it } from "vitest";
import { batchCounts, familyRecord, summed } from "../../../pwa/src/screens/rates.ts";
import { record } from "../../../pwa/src/state/actions.ts";
import { standing } from "../../../pwa/src/state/standing.ts";
import { holdingAt } from "./holding.ts";

const counts = (id: string) => {
  const lot = standing.value.lots.get(id);
  if (!lot) throw new Error("no such batch");
  return batchCounts(lot);
};

async function move(lot: string, from: string, to: string, n: number): Promise<void> {
  await record("moved", { moves: [{ lot, from, to, n }] });
}

describe("rates of a batch", () => {
  it("are not known before any candling", async () => {
    const { first } = await holdingAt(3);
    expect(counts(first)).toMatchObject({ fertility: { n: 0 }, hatchOfFertile: { n: 0 }, basis: null });
    expect(counts(first).hatchOfSet).toEqual({ k: 0, n: 24 });
  });

  it("stand on the judged eggs while the rest wait", async () => {
    const { setting, first } = await holdingAt(7);
    await record("looked", { setting, lot: first, what: "candled", day: 7, live: 8 });
    await move(first, "set", "clear", 2);
    expect(counts(first)).toMatchObject({ fertility: { k: 8, n: 10 }, basis: "candled" });
  });

  it("are whole after the hatch, and say that the eggs were opened", async () => {
    const { first } = await holdingAt(24);
    await move(first, "set", "cracked", 1);
    await move(first, "set", "unaccounted", 1);
    await move(first, "set", "clear", 4);
    await move(first, "set", "locked", 18);
    await move(first, "locked", "hatched", 15);
    await move(first, "hatched", "died", 1);
    await move(first, "locked", "unhatched", 3);
    await move(first, "unhatched", "dead_late", 3);
    await move(first, "clear", "infertile", 3);
    await move(first, "clear", "dead_early", 1);
    expect(counts(first)).toEqual({
      fertility: { k: 19, n: 22 },
      hatchOfSet: { k: 15, n: 24 },
      hatchOfFertile: { k: 15, n: 19 },
      basis: "opened",
    });
  });

  it("add up with Wilson's interval, and say nothing where a count cannot be", () => {
    // scipy.stats.binomtest(15, 19).proportion_ci(method="wilson"): 0.5667..0.9149
    const rate = summed([
      { k: 10, n: 12 },
      { k: 5, n: 7 },
    ]);
    expect([rate.k, rate.n]).toEqual([15, 19]);
    expect(rate.low).toBeCloseTo(0.5667, 3);
    expect(rate.high).toBeCloseTo(0.9149, 3);
    expect(summed([{ k: 5, n: 3 }])).toMatchObject({ k: 5, n: 3, rate: null, low: null });
  });

  it("make a family's record from settings that are over", async () => {
    const { rowan, first, second } = await holdingAt(24);
    await move(first, "set", "clear", 4);
    await move(first, "set", "hatched", 20);
    expect(familyRecord(standing.value, rowan)).toMatchObject({ settings: 0, running: 24 });
    await move(second, "set", "hatched", 16);
    expect(familyRecord(standing.value, rowan)).toMatchObject({
      settings: 1,
      set: 24,
      running: 0,
      fertility: { k: 20, n: 24 },
      hatchOfFertile: { k: 20, n: 20 },
    });
  });
});
