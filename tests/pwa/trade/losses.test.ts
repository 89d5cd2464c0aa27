import { describe, expect, it } from "vitest";
import {
  CALL_AT,
  FEW,
  firstWeek,
  firstWeekBounds,
  firstWeekWords,
  numberOf,
  TOGETHER,
  wordsForAge,
} from "../../../pwa/src/trade/losses.ts";
import { readVectors } from "../vectors.ts";

interface LossVectors {
  cases: {
    name: string;
    in: { species: string; died: number; n: number; age_days: number };
    out: { where: string | null; bounds: number[] | null; words: string | null; think_of: string };
  }[];
}

describe("losses against what was published", () => {
  const { cases } = readVectors("losses") as LossVectors;

  it.each(cases)("are the server's: $name", ({ in: { species, died, n, age_days }, out }) => {
    const bounds = firstWeekBounds(species);
    expect(firstWeek(species, died, n)).toBe(out.where);
    expect(bounds.map(numberOf)).toEqual(out.bounds ?? []);
    expect(firstWeekWords(species)).toBe(out.words ?? "");
    expect(wordsForAge(age_days)?.value).toBe(out.think_of);
  });

  it("know which causes are no chance, and when to call", () => {
    expect(TOGETHER).toContain("predator_fox");
    expect(TOGETHER).not.toContain("disease");
    expect([FEW, CALL_AT.value]).toEqual([100, 2]);
  });
});
