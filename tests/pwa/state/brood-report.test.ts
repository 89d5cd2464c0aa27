import { expect, it } from "vitest";
import { parseBrood } from "../../../pwa/src/state/brood-report.ts";

const ANSWER = {
  lot: "0199",
  to_watch: { words: ["2 or more dead on one day would be more than chance at this age.", 3] },
  alarms: [
    { on: "2026-04-01", died: 3, words: "3 died on one day.", think_of: "After day 7", source: "Ours" },
  ],
  survival_by: {
    groups: [
      {
        family: "f",
        family_name: "Rowan",
        hatched_on: "2026-03-22",
        n: 12,
        last_day: 9,
        points: [{ day: 4, at_risk: 12, died: 1, rate: 0.9, low: 0.5, high: 0.99 }, { day: "5" }],
      },
      { family: null, family_name: null, n: "many", points: null },
    ],
    words: "No difference",
  },
  computed_at: "2026-04-01T08:00:00.000Z",
};

it("reads survival by family and alarms, and leaves out what is not there", () => {
  const found = parseBrood(ANSWER);
  expect(found.groups[0]).toEqual({
    family: "f",
    familyName: "Rowan",
    hatchedOn: "2026-03-22",
    n: 12,
    lastDay: 9,
    points: [{ day: 4, rate: 0.9, low: 0.5, high: 0.99 }],
  });
  expect(found.groups[1]).toMatchObject({ family: null, familyName: "", n: 0, points: [] });
  expect([found.verdict, found.alarms[0]?.thinkOf]).toEqual(["No difference", "After day 7"]);
  expect(found.toWatch).toEqual(["2 or more dead on one day would be more than chance at this age."]);
  expect(found.computedMs).toBe(Date.parse("2026-04-01T08:00:00Z"));
});

it("passes over an older server's answer and refuses another report", () => {
  expect(parseBrood({ lot: "0199", alarms: [] })).toMatchObject({
    groups: [],
    verdict: "",
    toWatch: [],
    computedMs: 0,
  });
  expect(() => parseBrood({ setting: "0199", lots: [] })).toThrow(TypeError);
});
