// The stage by age over tests/vectors/breakout.json, which pytest reads too.
import table from "@tables/breakout.json";
import { describe, expect, it } from "vitest";
import { clueAt, deathClass, periodDays } from "../../../pwa/src/trade/breakout.ts";
import { sourceTitle } from "../../../pwa/src/trade/sources.ts";
import { readVectors } from "../vectors.ts";

interface Case {
  readonly name: string;
  readonly in: { readonly species: string; readonly day: number };
  readonly out: string;
}

const { cases } = readVectors("breakout") as { cases: Case[] };

describe("the stage by age", () => {
  it.each(cases)("$name", ({ in: { species, day }, out }) => {
    expect(deathClass(species, day)).toBe(out);
  });
});

describe("what is seen at an age", () => {
  it("is known for every day of a chicken, once", () => {
    for (let day = 0; day <= periodDays("chicken"); day += 1) {
      const rows = table.clues.filter(({ days: [from = 0, to = 0] }) => from <= day && day <= to);
      expect([day, rows.length]).toEqual([day, 1]);
      expect(sourceTitle(clueAt("chicken", day)?.source ?? "")).toContain("chick embryo");
    }
    expect(clueAt("chicken", 30)).toBeNull();
  });

  it("goes by the same share of the time in other species", () => {
    // A duck's day 16 of 28 is a chicken's day 12 of 21.
    expect(clueAt("duck", 16)).toEqual(clueAt("chicken", 12));
    expect(clueAt("phoenix", 4)).toEqual(clueAt("chicken", 4));
  });
});
