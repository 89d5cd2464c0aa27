import { expect, it } from "vitest";
import { sourceTitle } from "../../../pwa/src/trade/sources.ts";
import { figuresOf, SPECIES, speciesNamed } from "../../../pwa/src/trade/species.ts";

it("knows how long each species takes", () => {
  // Texas A&M AgriLife B-6092, table of incubation periods: days, and days to moving to the hatcher.
  const days = ["chicken", "turkey", "duck", "muscovy", "guinea", "coturnix"].map((code) => {
    const species = speciesNamed(code);
    return [code, species?.periodDays, species?.lockdownDay];
  });
  expect(days).toEqual([
    ["chicken", [21, 21], 18],
    ["turkey", [28, 28], 25],
    ["duck", [28, 28], 25],
    ["muscovy", [35, 37], 31],
    ["guinea", [28, 28], 25],
    ["coturnix", [17, 18], 15],
  ]);
});

it("knows no species by the names that every object has", () => {
  expect(["phoenix", "constructor", "__proto__"].map(speciesNamed)).toEqual([
    undefined,
    undefined,
    undefined,
  ]);
});

it("has lockdown before hatch, and candling before lockdown", () => {
  expect(SPECIES.size).toBeGreaterThan(10);
  for (const species of SPECIES.values()) {
    expect(species.lockdownDay, species.code).toBeLessThan(species.periodDays[0]);
    expect(species.periodDays[0]).toBeLessThanOrEqual(species.periodDays[1]);
    expect(Math.max(...species.candleDays), species.code).toBeLessThanOrEqual(species.lockdownDay);
  }
});

it("tells where each figure was read", () => {
  const duck = speciesNamed("duck");
  if (!duck) throw new Error("no duck");
  const { period, lockdown, candle } = figuresOf(duck);
  expect([period.value, lockdown.value, candle.value]).toEqual([
    duck.periodDays,
    duck.lockdownDay,
    duck.candleDays,
  ]);
  for (const { source } of [period, lockdown, candle]) expect(sourceTitle(source)).toBeTruthy();
  expect(() => figuresOf({ ...duck, code: "phoenix" })).toThrow(RangeError);
});
