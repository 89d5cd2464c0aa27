import { describe, expect, it } from "vitest";
import { evenness } from "../../../pwa/src/trade/growth.ts";
import { readVectors } from "../vectors.ts";

interface GrowthVectors {
  cases: {
    name: string;
    in: { masses_g: number[] };
    out: { n: number; mean_g: number; sd_g: number | null; cv_pct: number | null; within: number };
  }[];
}

describe("how even birds on the scales are is what the server says", () => {
  const { cases } = readVectors("growth") as GrowthVectors;
  const near = (value: number | null) => (value === null ? null : expect.closeTo(value, 4));

  it.each(cases)("$name", ({ in: { masses_g }, out }) => {
    expect(evenness(masses_g)).toEqual({
      n: out.n,
      meanG: near(out.mean_g),
      sdG: near(out.sd_g),
      cvPct: near(out.cv_pct),
      within: out.within,
    });
  });

  it("no bird has no mean", () => {
    expect(evenness([])).toBeNull();
  });
});
