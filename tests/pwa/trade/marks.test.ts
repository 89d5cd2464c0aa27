import { describe, expect, it } from "vitest";
import { bandMm } from "../../../pwa/src/trade/marking.ts";
import {
  binarySum,
  nextFree,
  nextFreeRing,
  parityPatterns,
  patternKey,
  patternOf,
  patterns,
  risks,
} from "../../../pwa/src/trade/marks.ts";
import { readVectors } from "../vectors.ts";

interface MarkVectors {
  patterns: string[][];
  parity: string[][];
  sums: Record<string, number>;
  cases: {
    name: string;
    in: string[][];
    out: { next_free: string[] | null; risks: Record<string, [string, string[], string[]][]> };
  }[];
  bands: { size: number; mm: number }[];
  rings: { colours: string[]; cases: { in: [string, string][]; out: [string, string] | null }[] };
}

const vectors = readVectors("marks") as MarkVectors;

it("knows the patterns the server knows, in its order", () => {
  expect(patterns()).toEqual(vectors.patterns);
  expect(parityPatterns()).toEqual(vectors.parity);
});

it("sums a pattern as the server does", () => {
  for (const [key, sum] of Object.entries(vectors.sums))
    expect(binarySum(patternOf(key.split("+")))).toBe(sum);
});

it("reads webs in any order, each once", () => {
  expect(patternKey(patternOf(["RO", "LO", "RO"]))).toBe("LO+RO");
});

describe("what is free and what a healed web does", () => {
  it.each(vectors.cases)("$name", ({ in: used, out }) => {
    const inUse = used.map(patternOf);
    expect(nextFree(inUse)).toEqual(out.next_free);
    for (const [key, told] of Object.entries(out.risks)) {
      const found = risks(patternOf(key.split("+")), inUse);
      expect(found.map(({ web, heals, readsAs }) => [web, heals, readsAs])).toEqual(told);
    }
  });
});

it("offers the ring that the server offers", () => {
  for (const { in: used, out } of vectors.rings.cases) {
    const found = nextFreeRing(vectors.rings.colours, used);
    expect(found && [found.colour, found.leg]).toEqual(out);
  }
});

it.each(vectors.bands)("knows that a numbered ring of $size is $mm mm wide", ({ size, mm }) => {
  expect(bandMm(size)).toBeCloseTo(mm, 9);
});
