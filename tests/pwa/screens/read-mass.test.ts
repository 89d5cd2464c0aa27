import { describe, expect, it } from "vitest";
import { numbersFrom } from "../../../pwa/src/screens/numbers-from.ts";
import { readBirdMass } from "../../../pwa/src/screens/read-mass.ts";
import { birdMassText } from "../../../pwa/src/screens/scale-words.ts";

describe("a bird's weight as it is typed", () => {
  it.each([
    ["612", "g", 612],
    ["38,5", "g", 38.5],
    ["1.205 g", "g", 1.205],
    ["", "g", null],
    ["0", "g", null],
    ["-5", "g", null],
    ["heavy", "g", null],
    ["16", "oz", 450],
    ["1.35", "oz", 38.3],
    ["5 lb 2.5", "oz", 2339],
    ["5lb", "oz", 2270],
    ["5 lb x", "oz", null],
  ] as const)("%s in %s", (text, unit, grams) => {
    expect(readBirdMass(text, unit)).toBe(grams);
  });
});

it.each([
  [38.5, "g", "38.5 g"],
  [842.5, "g", "843 g"],
  [38.5, "oz", "1.36 oz"],
  [453.6, "oz", "1 lb 0.0 oz"],
  [2339, "oz", "5 lb 2.5 oz"],
  [453.4, "oz", "1 lb 0.0 oz"],
] as const)("%d g is told as %s", (grams, unit, text) => {
  expect(birdMassText(grams, unit)).toBe(text);
});

it.each([
  ["101", 3, ["101", "102", "103"]],
  ["A098", 3, ["A098", "A099", "A100"]],
  ["", 2, ["", ""]],
  ["red", 2, ["red", "red"]],
] as const)("numbers in a row from %s", (first, n, all) => {
  expect(numbersFrom(first, n)).toEqual(all);
});
