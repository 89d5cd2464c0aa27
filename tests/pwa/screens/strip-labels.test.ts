import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { placeLabels } from "../../../pwa/src/screens/parts/strip-labels.ts";

const CHAR = 9;
const texts = (labels: ReturnType<typeof placeLabels>) => labels.map((label) => label.text);

describe("labels under a strip", () => {
  it("stand around what they name where there is room", () => {
    const [set, lockdown] = placeLabels(
      [
        { text: "set", x: 100, rank: 2 },
        { text: "lockdown", x: 300, rank: 1 },
      ],
      400,
      CHAR,
    );
    expect(set && set.left + set.width / 2).toBe(100);
    expect(lockdown && lockdown.left + lockdown.width / 2).toBe(300);
  });

  it("drop by rank: the less important goes", () => {
    const crowded = [
      { text: "candling", x: 50, rank: 3 },
      { text: "lockdown", x: 55, rank: 1 },
      { text: "hatch", x: 60, rank: 2 },
    ];
    expect(texts(placeLabels(crowded, 90, CHAR))).toEqual(["lockdown"]);
  });

  it("lean back so that the next one finds room", () => {
    const labels = [
      { text: "lockdown", x: 300, rank: 1, before: true },
      { text: "hatch", x: 340, rank: 2 },
    ];
    expect(texts(placeLabels(labels, 354, CHAR))).toEqual(["lockdown", "hatch"]);
  });

  it("never overlap and never leave the strip, whatever they are", () => {
    const label = fc.record({
      text: fc.string({ minLength: 1, maxLength: 20 }),
      x: fc.double({ min: -50, max: 900, noNaN: true }),
      rank: fc.integer({ min: 1, max: 5 }),
      before: fc.boolean(),
    });
    fc.assert(
      fc.property(fc.array(label, { maxLength: 9 }), fc.integer({ min: 100, max: 800 }), (labels, span) => {
        const placed = placeLabels(labels, span, CHAR, 8);
        for (const [at, one] of placed.entries()) {
          expect(one.left).toBeGreaterThanOrEqual(0);
          expect(one.left + one.width).toBeLessThanOrEqual(span);
          const next = placed[at + 1];
          if (next) expect(next.left - (one.left + one.width)).toBeGreaterThanOrEqual(7.999);
        }
        // The first in rank is only dropped when the strip itself is too narrow for it.
        const first = [...labels].sort((a, b) => a.rank - b.rank)[0];
        if (first && first.text.length * CHAR <= span) expect(texts(placed)).toContain(first.text);
      }),
    );
  });
});
