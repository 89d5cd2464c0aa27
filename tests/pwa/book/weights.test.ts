import { expect, it } from "vitest";
import { birdsOf } from "../../../pwa/src/book/birds.ts";
import { fold } from "../../../pwa/src/book/fold.ts";
import { counted, weightsOf } from "../../../pwa/src/book/weights.ts";
import { readVectors } from "../vectors.ts";
import { entriesOf } from "./entries-of.ts";

const { cases } = readVectors("flock_checks") as { cases: { name: string; in: { entries: unknown[] } }[] };

// The server's rule, tests/server/book/test_flock_days.py: 40 g dated before the hatch three ways, 41 g the day before it.
it.each([
  [/^weights before the hatch/, [40, 40, 40, 41], [false, false, false, true]],
  [/^a bird of its own entry/, [4000], [false]],
])("weights that cannot be belong to no group: %s", (name, masses, sensible) => {
  const found = cases.find((one) => name.test(one.name));
  const standing = fold(entriesOf(found?.in.entries ?? []));
  const weights = weightsOf(standing, birdsOf(standing, null));
  expect(weights.map(({ massG }) => massG)).toEqual(masses);
  expect(weights.map((one) => one.sensible)).toEqual(sensible);
});

const vectors = readVectors("weights") as {
  cases: {
    name: string;
    in: { entries: unknown[] };
    out: readonly [on: string, bird: string | null, grams: number][];
  }[];
};

it.each(vectors.cases)("the weights that count are the server's: $name", ({ in: { entries }, out }) => {
  const standing = fold(entriesOf(entries));
  const weights = counted(weightsOf(standing, birdsOf(standing, null)));
  expect(weights.map(({ on, bird, massG }) => [on, bird, massG])).toEqual(out);
});
