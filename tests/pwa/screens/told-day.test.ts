import { describe, expect, it } from "vitest";
import { dateTold, dayTold, weekdayTold } from "../../../pwa/src/screens/told-day.ts";
import { dayKey } from "../../../pwa/src/screens/told-time.ts";

describe("days", () => {
  it("are told by the language, and as written where no calendar has them", () => {
    expect(dateTold("2026-03-08")).toMatch(/2026/);
    for (const told of [dayTold, dateTold, weekdayTold])
      for (const odd of ["2026-02-31x", "26-03-08", "soon", ""]) expect(told(odd)).toBe(odd);
  });

  it("are compared as YYYY-MM-DD also in the first thousand years", () => {
    expect(dayKey(Date.UTC(2026, 2, 8, 23, 30), "Europe/Dublin")).toBe("2026-03-08");
    expect(dayKey(Date.parse("0026-03-08T12:00:00Z"), "UTC")).toBe("0026-03-08");
  });
});
