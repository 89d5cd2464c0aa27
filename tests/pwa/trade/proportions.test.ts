import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { differenceNewcombe, rateOf, wilson } from "../../../pwa/src/trade/proportions.ts";
import { readVectors } from "../vectors.ts";

interface ProportionVectors {
  rates: { name: string; in: { k: number; n: number }; out: Record<string, number | null> }[];
  differences: { name: string; in: [number, number, number, number]; out: Record<string, number> }[];
}

const { rates, differences } = readVectors("proportions") as ProportionVectors;

function expectClose(found: object, out: Record<string, number | null>) {
  expect(Object.keys(found).sort()).toEqual(Object.keys(out).sort());
  for (const [name, value] of Object.entries(found)) {
    const wanted = out[name];
    if (typeof wanted !== "number") expect(value, name).toBe(wanted);
    else expect(Math.abs(value - wanted), name).toBeLessThan(1e-12);
  }
}

describe("rates", () => {
  it.each(rates)("$name", ({ in: { k, n }, out }) => expectClose(rateOf(k, n), out));

  it("lie between their ends, which mirror each other", () => {
    fc.assert(
      fc.property(fc.nat(500), fc.nat(500), (k, more) => {
        const n = k + more + 1;
        const [low, high] = wilson(k, n);
        const [otherLow, otherHigh] = wilson(n - k, n);
        expect(0 <= low && low <= k / n && k / n <= high && high <= 1).toBe(true);
        expect(Math.abs(low - (1 - otherHigh)) + Math.abs(high - (1 - otherLow))).toBeLessThan(1e-12);
      }),
    );
  });

  it("say nothing of counts that contradict each other", () => {
    expect(rateOf(3, 5, { sound: false, basis: "candled", open: 2, soFar: true })).toEqual({
      k: 3,
      n: 5,
      rate: null,
      low: null,
      high: null,
      basis: "candled",
      open: 2,
      so_far: true,
    });
  });
});

describe("differences", () => {
  it.each(differences)("$name", ({ in: [k1, n1, k2, n2], out }) => {
    expectClose(differenceNewcombe(k1, n1, k2, n2), out);
  });

  it("are refused where there is no share", () => {
    expect(() => differenceNewcombe(1, 0, 1, 2)).toThrow(RangeError);
    expect(() => wilson(3, 2)).toThrow(RangeError);
  });
});
