import { describe, expect, it } from "vitest";
import { fold } from "../../../pwa/src/book/fold.ts";
import { hatchedMs } from "../../../pwa/src/book/hatch-day.ts";
import type { Lot } from "../../../pwa/src/book/standing.ts";
import { broods } from "../../../pwa/src/book/whereabouts.ts";
import { readVectors } from "../vectors.ts";
import { entriesOf } from "./entries-of.ts";

interface BroodsVectors {
  cases: {
    name: string;
    in: { entries: unknown[] };
    out: {
      hatched: Record<string, string | null>;
      broods: [string, string | null, Record<string, number>][];
    };
  }[];
}

describe("when chicks came out and where they are is what the server says", () => {
  const { cases } = readVectors("broods") as BroodsVectors;

  it.each(cases)("$name", ({ in: asked, out }) => {
    const standing = fold(entriesOf(asked.entries));
    for (const [lot, at] of Object.entries(out.hatched))
      expect(hatchedMs(standing, standing.lots.get(lot) as Lot)).toBe(at === null ? null : Date.parse(at));
    const found = broods(standing).map(({ lot, place, stages }) => [
      lot,
      place || null,
      Object.fromEntries(stages),
    ]);
    expect(found).toEqual(out.broods);
  });
});
