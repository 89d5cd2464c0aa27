import { describe, expect, it } from "vitest";
import { findingOf } from "../../../pwa/src/screens/told-finding.ts";
import { parseSetting } from "../../../pwa/src/state/setting-report.ts";

const WHOLE = {
  setting: "s",
  lots: [],
  summary: "9 of 12 eggs hatched.",
  pattern: [
    {
      finding: "many dead in the first days",
      code: "dead_early",
      evidence: "6 of 48",
      source: "UC",
      causes: [{ words: "cold", source: "UF" }],
    },
  ],
  hatch: {
    meanings: [{ words: "The hatch was 14 hours late. How many degrees cannot be told.", causes: [] }],
  },
  notes: [{ words: "A clear egg is not infertile.", source: "study" }],
  air: {
    excursions: [{ way: "hot", from: "2026-03-01T11:00:00Z", hours: 4, dry_c: 40.3, tier: "red" }],
    outages: [{ from: "2026-02-28T11:00:00Z", hours: null }],
    guidance: [{ words: "Hold a second thermometer beside it.", source: "Common practice" }],
    judgement: "Our judgement.",
    published: [{ words: "97 to 102 °F acceptable", source: "VT" }],
  },
  problems: [{ code: "humidity", message: "140 % is no humidity.", remedy: "Correct it.", entry: "e" }],
  computed_at: "2026-03-20T10:00:00Z",
};

describe("a setting's report at the door", () => {
  it("is read whole, spells and power cuts in order of time", () => {
    const report = parseSetting(WHOLE);
    expect(report.losses).toEqual([
      {
        finding: "many dead in the first days",
        code: "dead_early",
        words: "6 of 48",
        source: "UC",
        causes: [{ words: "cold", source: "UF" }],
      },
    ]);
    expect(report.spells.map(({ way, hours, worstC, tier }) => [way, hours, worstC, tier])).toEqual([
      ["power", null, null, ""],
      ["hot", 4, 40.3, "red"],
    ]);
    expect(report.computedMs).toBe(Date.parse("2026-03-20T10:00:00Z"));
    expect(report.problems).toEqual([{ message: "140 % is no humidity.", remedy: "Correct it." }]);
  });

  it("gives a headline of the losses, else of the hatch, else that nothing stands out", () => {
    expect(findingOf(parseSetting(WHOLE))).toBe("Many dead in the first days");
    expect(findingOf(parseSetting({ ...WHOLE, pattern: [] }))).toBe("The hatch was 14 hours late");
    expect(findingOf(parseSetting({ setting: "s", lots: [] }))).toBeNull();
  });

  it("leaves out what is not there or of another sort, and refuses what is no report", () => {
    const bare = parseSetting({
      setting: "s",
      lots: [],
      pattern: 3,
      air: null,
      hatch: [],
      notes: [null],
      problems: {},
    });
    expect([bare.losses, bare.spells, bare.hatch, bare.problems, bare.computedMs]).toEqual([
      [],
      [],
      [],
      [],
      0,
    ]);
    expect(bare.notes).toEqual([{ words: "", source: "" }]);
    for (const other of [null, 3, "s", {}, { setting: 4, lots: [] }, { setting: "s" }]) {
      expect(() => parseSetting(other)).toThrow(TypeError);
    }
  });
});
