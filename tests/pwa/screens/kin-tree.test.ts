import { describe, expect, it } from "vitest";
import { forebears } from "../../../pwa/src/screens/kin-tree.ts";
import { parseKin } from "../../../pwa/src/state/kin-report.ts";

type Pair = readonly [sire: string | null, dam: string | null, chance: number];

const birdsOf = (parents: Readonly<Record<string, readonly Pair[]>>) => {
  const { birds } = parseKin({
    birds: Object.entries(parents).map(([bird, pairs]) => ({
      bird,
      label: bird.toUpperCase(),
      parents: pairs.map(([sire, dam, chance]) => ({ sire, dam, chance })),
    })),
  });
  return new Map(birds.map((bird) => [bird.bird, bird]));
};

describe("a bird's forebears", () => {
  const birds = birdsOf({
    chick: [
      ["old", "red", 0.375],
      ["young", "red", 0.125],
      ["old", "white", 0.375],
      ["young", "white", 0.125],
    ],
    young: [["old", "grey", 1]],
    old: [],
    red: [["first", null, 1]],
    white: [],
    grey: [],
    first: [],
  });

  it("have at each place the sum of all ways that lead there", () => {
    const [sire, dam] = forebears(birds, "chick", 1);
    expect(sire?.candidates.map(({ label, chance }) => [label, chance])).toEqual([
      ["OLD", 0.75],
      ["YOUNG", 0.25],
    ]);
    expect(dam?.candidates.map(({ bird, chance }) => [bird, chance])).toEqual([
      ["red", 0.5],
      ["white", 0.5],
    ]);
    expect([sire?.unknown, sire?.parents]).toEqual([0, []]);
  });

  it("say with what chance nobody is known there", () => {
    const [sire, dam] = forebears(birds, "chick", 2);
    // Behind the cock: only the young one has parents, a quarter of the time.
    expect(sire?.parents.map((one) => [one.side, one.candidates[0]?.bird, one.unknown])).toEqual([
      ["sire", "old", 0.75],
      ["dam", "grey", 0.75],
    ]);
    expect(dam?.parents.map((one) => [one.side, one.candidates[0]?.chance, one.unknown])).toEqual([
      ["sire", 0.5, 0.5],
    ]);
  });

  it("are none where nothing is written", () => {
    expect(forebears(birds, "old", 3)).toEqual([]);
    expect(forebears(birds, "nobody", 3)).toEqual([]);
  });
});

describe("the report of birds", () => {
  it("reads what is not there as not known, never as none", () => {
    const [bird] = parseKin({ birds: [{ bird: "a", label: "A", F: null, completeness: 0 }] }).birds;
    expect(bird).toMatchObject({ inbreeding: null, meanKinship: null, generations: 0 });
    expect(() => parseKin({ families: [] })).toThrow(TypeError);
  });
});
