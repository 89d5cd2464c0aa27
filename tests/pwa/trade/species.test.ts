import { expect, it } from "vitest";
import { sourceOf } from "../../../pwa/src/trade/sources.ts";
import { SPECIES, speciesNamed } from "../../../pwa/src/trade/species.ts";

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

it("gives the widest range that was published beside the chosen one", () => {
  expect(speciesNamed("goose")?.periodPublished).toEqual([28, 34]);
  expect(speciesNamed("chicken")?.periodPublished).toEqual([20, 21]);
});

it("knows no species by the names that every object has", () => {
  expect(["phoenix", "constructor", "__proto__"].map(speciesNamed)).toEqual([
    undefined,
    undefined,
    undefined,
  ]);
});

it("has lockdown before hatch, candling before lockdown, and a source for every figure", () => {
  expect(SPECIES.size).toBeGreaterThan(10);
  for (const species of SPECIES.values()) {
    expect(species.lockdownDay, species.code).toBeLessThan(species.periodDays[0]);
    expect(species.periodDays[0]).toBeLessThanOrEqual(species.periodDays[1]);
    for (const cell of Object.values(species.cells))
      expect(sourceOf(cell.source), species.code).toBeDefined();
  }
});
