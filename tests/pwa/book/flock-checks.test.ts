import { describe, expect, it } from "vitest";
import { isSensible } from "../../../pwa/src/book/flock-checks.ts";
import { fold } from "../../../pwa/src/book/fold.ts";
import { readVectors } from "../vectors.ts";
import { entriesOf } from "./entries-of.ts";
import { flockJson } from "./flock-json.ts";

interface FlockVectors {
  cases: { name: string; in: { entries: unknown[] }; out: unknown }[];
}

describe("what cannot be about birds is told as on the server", () => {
  const { cases } = readVectors("flock_checks") as FlockVectors;

  it.each(cases)("$name", ({ in: asked, out }) => {
    expect(flockJson(fold(entriesOf(asked.entries)))).toEqual(out);
  });
});

// Embden goslings reach 3.5 kg at 6 weeks (Mercia, Raising Poultry the Modern Way, p. 133).
it.each([
  [35, 0, true],
  [4000, 0, false],
  [4000, null, true],
  [3500, 42, true],
  [30_000, 900, false],
])("%i g at %s days", (mass, age, sensible) => {
  expect(isSensible(mass, age)).toBe(sensible);
});
