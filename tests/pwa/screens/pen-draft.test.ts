import { describe, expect, it } from "vitest";
import { draftOf, isFaulty, type PenDraft, penBody, penFaults } from "../../../pwa/src/screens/pen-draft.ts";

const DRAFT: PenDraft = {
  family: "rowan",
  place: "",
  since: "2026-03-01",
  until: "",
  sires: ["c1", "c2"],
  dams: ["h1"],
  alike: "no",
  shares: { c1: "70", c2: "30", h1: "no number, but alone" },
};

describe("a pen as it is typed", () => {
  it("takes shares of several birds as parts of one, and none of a bird that is alone", () => {
    expect(isFaulty(penFaults(DRAFT))).toBe(false);
    expect(penBody(DRAFT)).toEqual({
      family: "rowan",
      since: "2026-03-01",
      sires: [
        { bird: "c1", share: 0.7 },
        { bird: "c2", share: 0.3 },
      ],
      dams: [{ bird: "h1" }],
    });
  });

  it("scales what is near 100 to one, so that the server finds nothing to mend", () => {
    const thirds = { ...DRAFT, sires: ["a", "b", "c"], shares: { a: "33,3", b: "33.3", c: "33.3" } };
    expect(isFaulty(penFaults(thirds))).toBe(false);
    const sum = penBody(thirds).sires.reduce((total, { share }) => total + (share ?? 0), 0);
    expect(sum).toBeCloseTo(1, 12);
  });

  it("says the sum where it is not 100, and which share is no number", () => {
    expect(penFaults({ ...DRAFT, shares: { c1: "70", c2: "20" } }).sum).toEqual({ sires: 90 });
    expect([...penFaults({ ...DRAFT, shares: { c1: "70" } }).unread]).toEqual(["c2"]);
    expect([...penFaults({ ...DRAFT, shares: { c1: "70", c2: "130" } }).unread]).toEqual(["c2"]);
  });

  it("leaves shares out where all are alike", () => {
    expect(penBody({ ...DRAFT, alike: "yes" }).sires).toEqual([{ bird: "c1" }, { bird: "c2" }]);
  });

  it("needs a family, birds, hens where there are cocks, and days in their order", () => {
    expect(penFaults({ ...DRAFT, sires: [], dams: [] }).nobody).toBe(true);
    expect(penFaults({ ...DRAFT, family: "" })).toMatchObject({ noFamily: true, nobody: false });
    expect(penFaults({ ...DRAFT, dams: [] }).noHens).toBe(true);
    expect(penFaults({ ...DRAFT, sires: [], alike: "yes" }).noHens).toBe(false);
    expect(penFaults({ ...DRAFT, since: "" }).noDay).toBe(true);
    expect(penFaults({ ...DRAFT, until: "2026-02-01" }).order).toBe(true);
  });

  it("begins with what stands in the book, and writes the same again", () => {
    const body = penBody({ ...DRAFT, place: "run", until: "2026-04-01" });
    expect(penBody(draftOf(body, "other"))).toEqual(body);
    expect(draftOf({}, "rowan")).toMatchObject({
      family: "rowan",
      since: "",
      alike: "yes",
    });
  });
});
