import { describe, expect, it } from "vitest";
import { fold } from "../../../pwa/src/book/fold.ts";
import { penStays, standingPens } from "../../../pwa/src/book/pen-stays.ts";
import { readVectors } from "../vectors.ts";
import { entriesOf } from "./entries-of.ts";

interface PenVectors {
  readonly cases: readonly {
    readonly name: string;
    readonly in: { readonly entries: readonly unknown[] };
    readonly out: readonly (readonly [since: string, until: string | null, isVisit: boolean])[];
  }[];
}

const { cases } = readVectors("pen_stays") as PenVectors;
const staysOf = (name: string) => {
  const found = cases.find((one) => one.name.startsWith(name));
  return penStays(fold(entriesOf(found?.in.entries ?? [])));
};

describe("the days of pens are what the server says", () => {
  it.each(cases)("$name", ({ in: { entries }, out }) => {
    const stays = penStays(fold(entriesOf(entries)));
    expect(stays.map(({ since, until, isVisit }) => [since, until, isVisit])).toEqual(out);
  });
});

describe("pens that stand on a day", () => {
  it("are those of the day of the change already, and a last day that was written is still one", () => {
    const two = staysOf("the next pen");
    expect(standingPens(two, "2026-02-28").map(({ since }) => since)).toEqual(["2026-01-05"]);
    expect(standingPens(two, "2026-03-01").map(({ since }) => since)).toEqual(["2026-03-01"]);
    const written = staysOf("a day that was written");
    expect(standingPens(written, "2026-02-01")).toHaveLength(1);
    expect(standingPens(written, "2026-02-02")).toHaveLength(0);
  });

  it("are never a visit", () => {
    expect(standingPens(staysOf("a bird that got in"), "2026-02-10")).toHaveLength(1);
  });
});
