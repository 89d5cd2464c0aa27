import { expect, it } from "vitest";
import { BROUGHT_UP_SAYS, broughtUp, broughtUpWords } from "../../../pwa/src/trade/thin-air.ts";
import { readVectors } from "../vectors.ts";

interface Case {
  name: string;
  in: { altitude_m: number; humidity_pct: number | null };
  out: { more_pct?: number; from_pct?: number; humidity_pct?: number } | null;
  within: number;
}

const { cases } = readVectors("thin_air") as { cases: Case[] };

it.each(cases)("eggs from lower ground: $name", ({ in: { altitude_m, humidity_pct }, out, within }) => {
  const found = broughtUp(altitude_m, humidity_pct);
  if (out === null) {
    expect(found).toBeNull();
    return;
  }
  const told = { more_pct: found?.morePct, from_pct: found?.fromPct, humidity_pct: found?.humidityPct };
  for (const [name, figure] of Object.entries(out))
    expect(Math.abs((told[name as keyof typeof told] ?? Number.NaN) - figure)).toBeLessThanOrEqual(within);
});

it("say so in words, with where it was read", () => {
  const found = broughtUp(1500, 55);
  const words = found ? broughtUpWords(found, "4921 ft") : "";
  expect(words).toContain("at 4921 ft they lose 20 % more water than there");
  expect(words).toContain("what 55 % humidity does at the sea takes 62 % here");
  expect(words).not.toMatch(/[{}]/);
  expect(BROUGHT_UP_SAYS.map((one) => one.source)).toEqual(["SOTHERLAND80", "RAHN77"]);
});
