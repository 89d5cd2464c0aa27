import { describe, expect, it } from "vitest";
import { fold } from "../../../pwa/src/book/fold.ts";
import { hatchedMs, hatchedOn } from "../../../pwa/src/book/hatch-day.ts";
import type { Lot } from "../../../pwa/src/book/standing.ts";
import { broods } from "../../../pwa/src/book/whereabouts.ts";
import { readVectors } from "../vectors.ts";
import { entriesOf } from "./entries-of.ts";

interface PlaceVectors {
  cases: { name: string; in: { entries: unknown[] }; out: unknown }[];
}

describe("chicks are where the server says, and hatched when it says", () => {
  const { cases } = readVectors("whereabouts") as PlaceVectors;

  it.each(cases)("$name", ({ in: asked, out }) => {
    const standing = fold(entriesOf(asked.entries));
    const found = broods(standing).map((brood) => {
      const { lot, among, place, stages } = brood;
      return {
        lot,
        among,
        place,
        stages: Object.fromEntries(stages),
        hatched_ms: hatchedMs(standing, standing.lots.get(lot) as Lot, among),
      };
    });
    const lots = [...standing.lots.values()].map((lot) => [lot.id, hatchedMs(standing, lot)]);
    const days = [...standing.lots.values()].map((lot) => [lot.id, hatchedOn(standing, lot)]);
    expect({
      broods: found,
      hatched_ms: Object.fromEntries(lots),
      hatched_on: Object.fromEntries(days),
    }).toEqual(out);
  });
});
