import { describe, expect, it } from "vitest";
import { judged } from "../../../pwa/src/screens/judged-lines.ts";

const line = (trait: string, points: string) => ({ trait, points });

describe("a bird judged by points", () => {
  it("adds up what is given and takes off what is wrong, with comma or dot", () => {
    const given = [line("Type", "22,5"), line("comb", "0.1"), line("legs", "0.2"), line("colour", "")];
    const { scores, total, faults, empty } = judged(given, [line("side sprig", "5")]);
    expect(scores).toEqual({ Type: 22.5, comb: 0.1, legs: 0.2, "side sprig": -5 });
    expect(total).toBe(17.8);
    expect([faults.size, empty]).toEqual([0, false]);
  });

  it("says which line cannot be read, and keeps the others", () => {
    const bad = [
      line("comb", "ten"),
      line("", "5"),
      line("legs", "-3"),
      line("type", "9"),
      line("Type ", "8"),
    ];
    const { scores, faults } = judged(bad, []);
    expect(scores).toEqual({ type: 9 });
    expect(bad.map((one) => faults.get(one) ?? null)).toEqual([
      expect.stringMatching(/as a number/),
      expect.stringMatching(/what these points are for/),
      expect.stringMatching(/as a number/),
      null,
      expect.stringMatching(/already/),
    ]);
  });

  it("is empty where nothing was given", () => {
    expect(judged([line("comb", ""), line("", "")], []).empty).toBe(true);
    expect(judged([line("comb", "0")], []).empty).toBe(false);
  });
});
