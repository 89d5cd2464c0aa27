import { describe, expect, it } from "vitest";
import { spaceAt } from "../../../pwa/src/trade/space.ts";
import { readVectors } from "../vectors.ts";

interface Out {
  floor_m2: number[] | null;
  feeder_cm: number[] | null;
  drinker_cm: number[] | null;
  next_day: number | null;
}
interface SpaceVectors {
  space: { name: string; in: { species: string; age_days: number }; out: Out | null }[];
}

describe("room", () => {
  const { space } = readVectors("brooding") as SpaceVectors;

  it.each(space)("is the server's: $name", ({ in: { species, age_days }, out }) => {
    const room = spaceAt(species, age_days);
    if (room === undefined || out === null) {
      expect([room, out]).toEqual([undefined, null]);
      return;
    }
    const rounded = (ends: readonly number[] | null) => ends?.map((end) => Number(end.toFixed(9))) ?? null;
    expect(rounded(room.floorM2)).toEqual(out.floor_m2);
    expect(rounded(room.feederCm)).toEqual(out.feeder_cm);
    expect(rounded(room.drinkerCm)).toEqual(out.drinker_cm);
    expect(room.nextDay).toBe(out.next_day);
  });

  it("for 24 chicks up to six weeks is 12 ft², 24 in of feeder and 12 in of drinker by the student text", () => {
    const room = spaceAt("chicken", 28);
    expect((room?.floorM2?.[1] ?? 0) * 24).toBeCloseTo(12 * 0.09290304, 6);
    expect((room?.feederCm?.[1] ?? 0) * 24).toBeCloseTo(24 * 2.54, 6);
    expect((room?.drinkerCm?.[1] ?? 0) * 24).toBeCloseTo(12 * 2.54, 6);
  });
});
