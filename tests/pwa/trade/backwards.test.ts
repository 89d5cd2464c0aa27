// Periods: Texas A&M B-6092 (copy), as in species.json: chicken 21, duck 28, Muscovy 35 to 37 days. Dates by hand.
import { expect, it } from "vitest";
import { hatchDaysFor, setDayFor, shifted } from "../../../pwa/src/trade/backwards.ts";
import { type Species, speciesNamed } from "../../../pwa/src/trade/species.ts";

const of = (code: string) => speciesNamed(code) as Species;

it("reckons back from the wished day, so that species hatch together", () => {
  expect(setDayFor(of("chicken"), "2026-04-04")).toBe("2026-03-14"); // Easter Saturday 2026
  expect(setDayFor(of("duck"), "2026-04-04")).toBe("2026-03-07");
  expect(setDayFor(of("muscovy"), "2026-04-04")).toBe("2026-02-28");
  expect(setDayFor(of("chicken"), "2028-03-10")).toBe("2028-02-18"); // over a leap day
});

it("and forwards again", () => {
  expect(hatchDaysFor(of("muscovy"), "2026-02-28")).toEqual(["2026-04-04", "2026-04-06"]);
  for (const code of ["chicken", "duck", "goose", "coturnix"]) {
    const set = setDayFor(of(code), "2026-05-01") ?? "";
    expect(hatchDaysFor(of(code), set)?.[0]).toBe("2026-05-01");
  }
});

it("knows no day that no calendar has", () => {
  for (const day of ["", "soon", "2026-13-01", "26-1-1"]) {
    expect(setDayFor(of("chicken"), day)).toBeNull();
    expect(hatchDaysFor(of("chicken"), day)).toBeNull();
  }
  expect(shifted("9999-12-31", 1)).toBeNull();
  expect(shifted("0001-01-01", -1)).toBeNull();
});
