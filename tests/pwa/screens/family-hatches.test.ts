// @vitest-environment happy-dom
import { describe, expect, it } from "vitest";
import { familyHatches } from "../../../pwa/src/screens/family-hatches.ts";
import { record } from "../../../pwa/src/state/actions.ts";
import { standing } from "../../../pwa/src/state/standing.ts";
import { NOW_MS } from "../state/surroundings.ts";
import { holdingAt } from "./holding.ts";

const move = (lot: string, from: string, to: string, n: number) =>
  record("moved", { moves: [{ lot, from, to, n }] });

describe("a family's record", () => {
  it("counts settings that are over and only names the eggs of those that run", async () => {
    const { rowan, first, second } = await holdingAt(24);
    await move(first, "set", "clear", 4);
    await move(first, "set", "hatched", 18);
    await move(first, "set", "unhatched", 2);
    expect(familyHatches(standing.value, rowan, NOW_MS)).toMatchObject({ settings: 0, set: 0, running: 24 });
    await move(second, "set", "hatched", 16);
    expect(familyHatches(standing.value, rowan, NOW_MS)).toMatchObject({
      settings: 1,
      set: 24,
      running: 0,
      fertility: { k: 20, n: 24 },
      hatchOfFertile: { k: 18, n: 20 },
    });
  });

  it("leaves out a batch whose counts cannot be", async () => {
    const { rowan, first, second } = await holdingAt(24);
    await move(first, "set", "hatched", 24);
    await move(first, "clear", "infertile", 3);
    await move(second, "set", "hatched", 16);
    expect(familyHatches(standing.value, rowan, NOW_MS)).toMatchObject({
      settings: 0,
      set: 0,
      fertility: { k: 0, n: 0 },
    });
  });
});
