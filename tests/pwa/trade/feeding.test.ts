import { describe, expect, it } from "vitest";
import {
  feedChange,
  feedFigures,
  feedGADay,
  feedGBetween,
  gritMm,
  HOT,
  LAYER_FEED,
  memoryWords,
  noteFor,
  proteinAt,
  turkeyProteinPct,
  waterFigures,
  waterMlADay,
  withSpread,
} from "../../../pwa/src/trade/feeding.ts";
import type { Ends } from "../../../pwa/src/trade/ranges.ts";
import { readVectors } from "../vectors.ts";

interface Out {
  protein: unknown;
  change: unknown;
  feed_g_a_day: Record<"slow" | "fast", Ends | null>;
  four_weeks_g: Record<"slow" | "fast", Ends | null>;
  water_ml_a_day: Ends | null;
  water_figures: number;
  four_weeks_kinds: string[];
  four_weeks_reckoned_g: Ends | null;
  water_reckoned_ml: Ends | null;
  grit_mm: unknown;
  note: string | null;
}
interface FeedingVectors {
  turkey_protein: { weeks: number; sex: "male" | "female"; pct: number | null }[];
  cases: { name: string; in: { species: string; age_days: number }; out: Out }[];
}

function expectEnds(found: Ends | null, out: Ends | null) {
  expect(found === null).toBe(out === null);
  found?.forEach((end, i) => {
    expect(end).toBeCloseTo(out?.[i] ?? Number.NaN, 6);
  });
}

describe("feed and water", () => {
  const { cases, turkey_protein } = readVectors("feeding") as FeedingVectors;

  it.each(turkey_protein)(
    "asks $pct % protein for a turkey, $sex, of $weeks weeks",
    ({ weeks, sex, pct }) => {
      const found = turkeyProteinPct(weeks, sex);
      if (pct === null) expect(found).toBeNull();
      else expect(found).toBeCloseTo(pct, 9);
    },
  );

  it.each(cases)("are the server's: $name", ({ in: { species, age_days: day }, out }) => {
    const protein = proteinAt(species, day);
    expect(protein ? [protein.stage, ...protein.percent] : null).toEqual(out.protein);
    expect(feedChange(species)?.days ?? null).toEqual(out.change);
    for (const growth of ["slow", "fast"] as const) {
      expectEnds(feedGADay(species, day, growth), out.feed_g_a_day[growth]);
      expectEnds(feedGBetween(species, day, day + 28, growth), out.four_weeks_g[growth]);
    }
    expectEnds(waterMlADay(species, day), out.water_ml_a_day);
    const four = feedFigures(species, day, day + 28);
    expect(four.map(({ kind }) => kind)).toEqual(out.four_weeks_kinds);
    expectEnds(withSpread(feedGBetween(species, day, day + 28), four), out.four_weeks_reckoned_g);
    expectEnds(withSpread(waterMlADay(species, day), waterFigures(species, day)), out.water_reckoned_ml);
    expect(waterFigures(species, day)).toHaveLength(out.water_figures);
    expect(day < 0 ? null : gritMm(species, day)).toEqual(out.grit_mm);
    expect(noteFor(species) ?? null).toBe(out.note);
  });

  it("of a bird of four weeks is 71 to 168 mL by five sources, and each is named", () => {
    expect(waterMlADay("chicken", 28)?.map(Math.round)).toEqual([71, 168]);
    expect(new Set(waterFigures("chicken", 28).map(({ source }) => source)).size).toBe(5);
    const [slow, fast] = [feedFigures("chicken", 28, 29), feedFigures("chicken", 28, 29, "fast")];
    expect([slow, fast].map((rows) => [...new Set(rows.map(({ source }) => source))])).toEqual([
      ["NRC94"],
      ["NRC84"],
    ]);
    expect(memoryWords(slow)).toMatch(/^All of this rests on figures from memory/);
    expect(memoryWords(fast)).toBeUndefined();
    expect(memoryWords(waterFigures("chicken", 28))).toMatch(/^Part of this/);
    expect(feedFigures("chicken", 28, 29).every(({ source, status }) => source && status)).toBe(true);
    expect([HOT.value, LAYER_FEED.value]).toEqual([[1.3, 1.5], 126]);
  });
});
