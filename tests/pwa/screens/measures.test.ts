import { describe, expect, it } from "vitest";
import {
  celsiusOf,
  degreesText,
  gramsOf,
  massText,
  temperatureText,
} from "../../../pwa/src/screens/measures.ts";

describe("the keeper's units", () => {
  it("gives back a tenth of a degree Fahrenheit as it was typed", () => {
    for (let tenths = 900; tenths <= 1100; tenths += 1) {
      const typed = tenths / 10;
      expect(temperatureText(celsiusOf(typed, "F"), "F")).toBe(`${typed.toFixed(1)} °F`);
    }
  });

  it("knows the fixed points of both scales", () => {
    expect([celsiusOf(32, "F"), celsiusOf(212, "F"), celsiusOf(37.5, "C")]).toEqual([0, 100, 37.5]);
    expect([degreesText(-1, "C"), degreesText(1, "F")]).toEqual(["1.0 °C", "1.8 °F"]);
  });

  it("turns ounces into grams no finer than the scale was, for the digits of an entry tell its step", () => {
    // 16 oz are 453.59237 g (international pound, 1959).
    expect(gramsOf(16, "oz", "16.00")).toBe(453.6);
    expect(gramsOf(16, "oz", "16,0")).toBe(454);
    expect(gramsOf(16, "oz", "16")).toBe(450);
    expect(gramsOf(453.59, "g", "453.59")).toBe(453.59);
    expect([massText(56.7, "oz"), massText(56.7, "g")]).toEqual(["2.00 oz", "56.7 g"]);
  });
});
