// Titles of the season's parts, from an answer made up by hand: each states what its figures add up to.
import { describe, expect, it } from "vitest";
import * as titles from "../../../pwa/src/screens/season-titles.ts";
import { parseSeason } from "../../../pwa/src/state/season-report.ts";

const rate = (k: number, n: number) => ({
  k,
  n,
  rate: n ? k / n : null,
  low: n ? 0 : null,
  high: n ? 1 : null,
});
const rates = (k: number, n: number) => ({ set: n, hatch_of_set: rate(k, n) });
const family = (name: string, k: number, n: number, deaths: object = {}) => ({
  family: name,
  name,
  deaths,
  ...rates(k, n),
});
const hatch = (first_h: number, median_h: number | null, last_h: number) => ({
  setting: String(first_h),
  place_name: "Loft box",
  set_on: "2026-03-01",
  first_h,
  median_h,
  last_h,
  usual_h: [480, 528],
});
const WHOLE = {
  year: 2026,
  families: [
    family("Rowan", 14, 20, { early: 3, late: 1 }),
    family("Birch", 8, 20, { early: 2, late: 4, mid: 1 }),
    family("Sedge", 0, 0),
  ],
  overall_test: { p: 0.031 },
  funnel: [
    { step: "set", n: 52 },
    { step: "hatched", n: 23 },
    { step: "alive", n: 21 },
  ],
  hatches: [hatch(494, 500.2, 519), hatch(500, 510, 520), hatch(490, null, 500)],
  chick_losses: [
    { from_days: 0, to_days: 2, died: 1, lost: rate(1, 23) },
    { from_days: 3, to_days: 7, died: 2, missing: 1, culled: 4, lost: rate(3, 20) },
  ],
  earlier: [
    { year: 2025, ...rates(30, 50), families: { Rowan: rate(20, 30), Birch: rate(10, 20) } },
    { year: 2024, ...rates(10, 25), families: {} },
  ],
  by_egg_age: [{ from_days: 4, to_days: 7, ...rates(22, 40) }],
  by_place: [{ name: "Loft box", ...rates(22, 40) }],
  by_month: [
    { month: "2026-03", ...rates(14, 20) },
    { month: "2026-05", ...rates(8, 20) },
  ],
};
const NOTHING = parseSeason({ year: 2026, families: [] });

describe("each part of the season's page", () => {
  const report = parseSeason(WHOLE);

  it("states its finding", () => {
    expect(titles.familiesTitle(report)).toBe(
      "Hatched of those set: 40 % of Birch's eggs to 70 % of Rowan's",
    );
    expect(titles.funnelTitle(report)).toBe("Of 52 eggs set 23 hatched; 21 live now");
    const funnel = report.funnel.map((one) => ({ ...one, notWritten: one.step === "alive" ? 2 : 0 }));
    expect(titles.funnelTitle({ ...report, funnel })).toBe(
      "Of 52 eggs set 23 hatched; 21 live now, and of 2 nothing is written",
    );
    expect(titles.comparedTitle(report)).toBe("The differences are more than chance gives (p 0.031)");
    expect(titles.comparedTitle({ ...report, p: 0.2 })).toBe(
      "Chance alone may give such differences (p 0.20)",
    );
    expect(titles.lossesTitle(report)).toBe("11 died in the shell, 5 of them early");
    expect(titles.hatchesTitle(report)).toBe("Half the chicks were out by day 20.8 to 21.3");
    expect(titles.chicksTitle(report)).toBe("4 chicks lost, most at 3 to 7 days");
    expect(titles.groupsTitle(report)).toBe(
      "Hatched of those set: by egg age 55 %, by machine 55 %, by month 40 % to 70 %",
    );
    expect(titles.earlierTitle(report)).toBe("55 % of those set hatched; in the seasons before 40 % to 60 %");
  });

  it("states none that its figures do not hold", () => {
    expect(titles.familiesTitle(NOTHING)).toBeNull();
    expect(titles.comparedTitle(NOTHING)).toBe("Hatched, of those set");
    expect(titles.lossesTitle(NOTHING)).toBe("None is known to have died in the shell");
    expect(titles.hatchesTitle(NOTHING)).toBe("When the chicks came out");
    expect(titles.chicksTitle(NOTHING)).toBe("No chick was lost at these ages");
    expect(titles.earlierTitle(NOTHING)).toBe("The seasons before");
  });

  it("is read at the door with what is there", () => {
    expect(report.hatches[0]).toMatchObject({ place: "Loft box", first_h: 494, usual_h: [480, 528] });
    expect(report.earlier[0]?.families.get("Rowan")).toMatchObject({ k: 20, n: 30 });
    expect(report.chick_losses[1]).toMatchObject({ died: 2, missing: 1, culled: 4, lost: { k: 3, n: 20 } });
  });
});
