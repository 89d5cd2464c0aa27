import { describe, expect, it } from "vitest";
import { meanOfPens, moved, penFigures } from "../../../pwa/src/screens/pairing-figures.ts";
import { type PairingPen, parsePairing } from "../../../pwa/src/state/pairing-report.ts";
import { readVectors } from "../vectors.ts";

interface Vectors {
  readonly table: readonly unknown[];
  readonly cases: readonly {
    readonly name: string;
    readonly pen: PairingPen;
    readonly out: {
      readonly mean_F: number | null;
      readonly worst_F: number;
      readonly p_over: number | null;
      readonly p_over_error: number | null;
      readonly known: boolean;
      readonly not_known: number;
      readonly cautions: readonly string[];
    };
  }[];
  readonly means: readonly {
    readonly name: string;
    readonly pens: readonly PairingPen[];
    readonly out: { readonly mean: number | null; readonly not_known: { n: number; of: number } } | null;
  }[];
}

const told = readVectors("pairing") as Vectors;
const { table } = parsePairing({ table: told.table, pens: [] });

describe("pens put together by hand", () => {
  it.each(told.cases)("$name", ({ pen, out }) => {
    const found = penFigures(table, pen);
    const near = (one: number | null) => (one === null ? null : expect.closeTo(one, 12));
    expect(found).toEqual({
      mean: near(out.mean_F),
      worst: out.worst_F,
      over: near(out.p_over),
      overError: near(out.p_over_error),
      known: out.known,
      notKnown: out.not_known,
      cautions: out.cautions,
    });
  });

  it.each(told.means)("mean of all: $name", ({ pens, out }) => {
    const found = meanOfPens(table, pens);
    if (out === null) expect(found).toBeNull();
    else
      expect(found).toEqual({
        mean: out.mean === null ? null : expect.closeTo(out.mean, 12),
        notKnown: out.not_known,
      });
  });

  it("has no figures without a cock or a hen", () => {
    expect(penFigures(table, { sires: [], dams: ["h1"] })).toBeNull();
    expect(meanOfPens(table, [{ sires: ["c1"], dams: [] }])).toBeNull();
  });

  it("sends a bird to one pen and out of every other", () => {
    const pens = [
      { sires: ["c1"], dams: ["h1", "h2"] },
      { sires: ["c2"], dams: ["h3"] },
    ];
    expect(moved(pens, "h2", false, 1)).toEqual([
      { sires: ["c1"], dams: ["h1"] },
      { sires: ["c2"], dams: ["h3", "h2"] },
    ]);
    expect(moved(pens, "c2", true, 0)).toEqual([
      { sires: ["c1", "c2"], dams: ["h1", "h2"] },
      { sires: [], dams: ["h3"] },
    ]);
    expect(moved(pens, "h3", false, null)[1]).toEqual({ sires: ["c2"], dams: [] });
  });

  it("keeps the parts of a pen that nobody left or joined, and lets all count alike in one that changed", () => {
    const shares = { c1: 1, h1: 0.9, h2: 0.1 };
    const pens = [
      { sires: ["c1"], dams: ["h1", "h2"], shares },
      { sires: ["c2"], dams: ["h3"] },
    ];
    expect(moved(pens, "c2", true, null)[0]).toEqual(pens[0]);
    expect(moved(pens, "h2", false, 1)[0]).toEqual({ sires: ["c1"], dams: ["h1"] });
    expect(moved(pens, "h3", false, 0)[0]).toEqual({ sires: ["c1"], dams: ["h1", "h2", "h3"] });
  });
});
