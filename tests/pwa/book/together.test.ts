import { describe, expect, it } from "vitest";
import { fold } from "../../../pwa/src/book/fold.ts";
import { agesApart, alikePairs } from "../../../pwa/src/book/together.ts";
import { readVectors } from "../vectors.ts";
import { entriesOf } from "./entries-of.ts";

interface TogetherVectors {
  cases: { name: string; in: { now: string; lots: string[]; entries: unknown[] }; out: unknown }[];
}

describe("what to mind where batches share a place is the server's", () => {
  const { cases } = readVectors("together") as TogetherVectors;

  it.each(cases)("$name", ({ in: asked, out }) => {
    const standing = fold(entriesOf(asked.entries));
    const alike = alikePairs(standing, asked.lots);
    const apart = agesApart(standing, asked.lots, Date.parse(asked.now));
    expect({ alike, apart }).toEqual(out);
  });
});
