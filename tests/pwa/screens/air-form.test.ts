import { describe, expect, it } from "vitest";
import { type AirForm, faultsOf, readForm } from "../../../pwa/src/screens/air-form.ts";
import { NOW } from "../../../pwa/src/screens/parts/moment.ts";

const typed = (part: Partial<AirForm>): AirForm => {
  return { way: "wet", dry: "", wet: "", humidity: "", moment: NOW, ...part };
};

describe("a reading of the air, as it is typed", () => {
  it("takes comma or dot, and both units", () => {
    // 100 F with 87.3 F wet is 60 % (MSU P1150, printed table).
    const found = readForm(typed({ dry: "100", wet: "87,3" }), "F", 0);
    expect(found?.body).toEqual({ dry_c: 37.778, wet_c: 30.722 });
    expect(Math.abs((found?.humidityPct ?? 0) - 60)).toBeLessThan(1);
    expect(readForm(typed({ way: "humidity", dry: "37,5", humidity: "55" }), "C", 0)?.body).toEqual({
      dry_c: 37.5,
      humidity_pct: 55,
    });
    expect(readForm(typed({ way: "dry", dry: "37.5", wet: "99" }), "C", 0)?.body).toEqual({ dry_c: 37.5 });
  });

  it("reckons with the height above the sea", () => {
    // The same pair reads 61.8 % at 1500 m (worked out in the reference by the same formula).
    expect(readForm(typed({ dry: "37.778", wet: "30.722" }), "C", 1500)?.humidityPct).toBeCloseTo(61.8, 1);
  });

  it.each([
    ["nothing typed", typed({}), "C", "dry", /^Type what/],
    ["letters", typed({ dry: "warm" }), "C", "dry", /no number/],
    ["Fahrenheit with °C chosen", typed({ dry: "99.5" }), "C", "dry", /Is it °F/],
    ["Celsius with °F chosen", typed({ dry: "37.5" }), "F", "dry", /Is it °C/],
    ["wet above dry", typed({ dry: "37.5", wet: "38" }), "C", "wet", /mixed up/],
    ["drier than any air", typed({ dry: "37.5", wet: "10" }), "C", "wet", /No air is that dry/],
    ["more than all", typed({ way: "humidity", dry: "37.5", humidity: "104" }), "C", "humidity", /0 and 100/],
  ] as const)("refuses %s in words", (_, form, unit, field, words) => {
    expect(faultsOf(form, unit, 0)[field]).toMatch(words);
    expect(readForm(form, unit, 0)).toBeNull();
  });
});
