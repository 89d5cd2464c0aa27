// @vitest-environment happy-dom
// The server's answer about weights on the screen: within batch and sex, a curve or the reason why there is none.
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { GrowthScreen } from "../../../pwa/src/screens/growth.tsx";
import { groupsIn } from "../../../pwa/src/screens/growth-group.tsx";
import { growthTold } from "../../../pwa/src/state/bird-reports.ts";
import { parseGrowth } from "../../../pwa/src/state/growth-report.ts";
import { killApp } from "../state/surroundings.ts";
import { holdingAt, settle, show } from "./holding.ts";

afterAll(killApp);

// R's ChickWeight, diet 4: the Gompertz curve of its twelve means (scipy and R nls agree), steepest on day 14.8.
const FIT = {
  model: "gompertz",
  parameters: { A: 472.0933, b: 2.4771, k: 0.0614 },
  inflection_day: 14.7805,
};
const group = (age: number, mean: number, more = {}) => ({
  lot: "a",
  family: "f",
  family_name: "Rowan",
  sex: "male",
  on: `2026-05-${String(age + 1).padStart(2, "0")}`,
  age_days: age,
  n: 9,
  mean_g: mean,
  sd_g: 10,
  cv_pct: 18.17,
  within_10_pct: 22.22,
  within_10_expected_pct: 41.79,
  fit: FIT,
  ...more,
});
const ANSWER = {
  on: "2026-05-22",
  computed_at: "2026-05-22T09:00:00Z",
  groups: [
    group(0, 41),
    group(21, 238.6),
    group(4, 60, { lot: "b", family_name: "Hazel", sex: "female", fit: null, refused: "Weigh on." }),
  ],
  birds: [
    {
      bird: "x",
      label: "red 1",
      mass_g: 190,
      of_mean_pct: 79.6,
      slow: true,
      rank: 9,
      group: { lot: "a", sex: "male", on: "2026-05-22", n: 9 },
    },
  ],
  goals: [{ pct: 75, words: "% within 10 %", source: "e-course" }],
  problems: [],
};

it("tells two hatches of one family apart by their days", () => {
  const groups = [
    group(4, 60),
    group(30, 300, { lot: "b", on: "2026-06-30" }),
    group(4, 55, { sex: "female" }),
  ];
  const names = groupsIn(parseGrowth({ ...ANSWER, groups })).map(({ name }) => name);
  expect(names).toHaveLength(3);
  expect(
    names.filter(
      (name) => /^Rowan, cock, hatched .*2026/.test(name) || /^Rowan, male, hatched .*2026/.test(name),
    ),
  ).toHaveLength(2);
  expect(names.at(-1)).not.toContain("hatched");
});

describe("weights from the server", () => {
  beforeEach(async () => {
    await holdingAt(21);
    show(<GrowthScreen />);
    await settle();
    growthTold.value = { kind: "away", report: parseGrowth(ANSWER) };
    await settle();
  });

  it("states who lags, and that the answer is an old one", () => {
    expect(document.querySelector("h1")?.textContent).toBe("1 bird lags behind its own batch");
    expect(document.body.textContent).toContain("The server cannot be asked now.");
    expect(document.body.textContent).toContain("190 g, 80 % of the mean of 9");
  });

  it("draws the curve where the weights carry one and says why where not", () => {
    expect(document.body.textContent).toContain(
      "Growth was fastest on day 15; grown, about 472 g by this curve (Gompertz).",
    );
    expect(document.body.textContent).toContain("No growth curve. Weigh on.");
    expect(document.body.textContent).toContain("22 % of 42 expected");
    const curves = [...document.querySelectorAll("svg")].filter((svg) => svg.querySelector(".wished"));
    expect(curves).toHaveLength(1);
    expect(curves[0]?.getAttribute("aria-label")).toBe(
      "Rowan, male: mean weight at 2 ages, from 41.0 g to 239 g",
    );
  });
});

it("puts the batch and sex that was weighed last first, and reads nothing as not known", () => {
  const report = parseGrowth(ANSWER);
  expect(groupsIn(report).map(({ name }) => name)).toEqual(["Rowan, male", "Hazel, female"]);
  expect(parseGrowth({ groups: [{}], birds: [], goals: [] }).groups[0]).toMatchObject({
    lot: null,
    ageDays: null,
    curve: null,
  });
  expect(() => parseGrowth({ groups: [] })).toThrow(TypeError);
});
