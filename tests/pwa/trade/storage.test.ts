import { describe, expect, it } from "vitest";
import { sourceTitle } from "../../../pwa/src/trade/sources.ts";
import { CHOOSING, KEEPING, REST_AFTER_POST_H, storagePoints } from "../../../pwa/src/trade/storage.ts";
import { readVectors } from "../vectors.ts";

const { cases } = readVectors("storage") as {
  cases: { name: string; in: { days: number }; out: number | null }[];
};

describe("what keeping eggs costs", () => {
  it.each(cases)("$name", ({ in: { days }, out }) => {
    const points = storagePoints(days);
    if (out === null) expect(points).toBeNull();
    else expect(points).toBeCloseTo(out, 12);
  });

  it("and every advice names its source", () => {
    const { worseAfter, mostDays, cost, ...lists } = KEEPING;
    const all = [worseAfter, mostDays, cost, REST_AFTER_POST_H, ...CHOOSING, ...Object.values(lists).flat()];
    for (const { source } of all) expect(sourceTitle(source), source).toBeTruthy();
  });
});
