import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readCount, readDecimal } from "../../../pwa/src/screens/parts/read-number.ts";

const value = (reading: ReturnType<typeof readCount>) => (reading.ok ? reading.value : reading.why);

describe("a count", () => {
  it.each([
    ["12", 12],
    [" 40 ", 40],
    ["1 200", 1200],
    ["1.200", 1200],
    ["1,200", 1200],
    ["1\u202f200", 1200],
    ["12.", 12],
    ["12,0", 12],
    ["", "empty"],
    ["   ", "empty"],
    ["1,5", "not_whole"],
    ["twelve", "not_a_number"],
    ["12a", "not_a_number"],
    ["1e3", "not_a_number"],
    ["-3", "too_small"],
    ["999999", "too_large"],
  ])("%j reads as %j", (text, expected) => {
    expect(value(readCount(text))).toBe(expected);
  });

  it("reads back every number a phone may print", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 100_000 }),
        fc.constantFrom("en", "de", "fr", "de-CH"),
        (n, language) => {
          expect(value(readCount(n.toLocaleString(language)))).toBe(n);
        },
      ),
    );
  });
});

describe("a measured value", () => {
  it.each([
    ["37,6", 37.6],
    ["37.6", 37.6],
    ["-1.5", -1.5],
    ["\u22121,5", -1.5],
    [".5", 0.5],
    ["1,234.5", 1234.5],
    ["1.234,5", 1234.5],
    ["37", 37],
    ["3.7.6", "not_a_number"],
    ["--1", "not_a_number"],
    ["", "empty"],
  ])("%j reads as %j", (text, expected) => {
    expect(value(readDecimal(text))).toBe(expected);
  });

  it("holds to its limits", () => {
    expect(value(readDecimal("150", 0, 100))).toBe("too_large");
    expect(value(readDecimal("-1", 0, 100))).toBe("too_small");
  });
});
