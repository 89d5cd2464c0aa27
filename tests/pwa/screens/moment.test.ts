import { describe, expect, it } from "vitest";
import { instantOf, momentToDate, timeText } from "../../../pwa/src/screens/parts/moment.ts";

const DUBLIN = "Europe/Dublin";
const at = (day: string, time: string, zone = DUBLIN) => new Date(instantOf(day, time, zone)).toISOString();

describe("a day and time by the clock of the holding", () => {
  it("is read in its zone, whatever the phone's own is", () => {
    expect(at("2026-03-08", "21:00")).toBe("2026-03-08T21:00:00.000Z");
    expect(at("2026-07-08", "21:00")).toBe("2026-07-08T20:00:00.000Z");
    expect(at("2026-03-08", "21:00", "Pacific/Auckland")).toBe("2026-03-08T08:00:00.000Z");
    expect(at("2026-03-08", "21:00", "America/St_Johns")).toBe("2026-03-08T23:30:00.000Z");
    expect(at("2026-03-08", "21:00", "no such zone")).toBe("2026-03-08T21:00:00.000Z");
  });

  // RFC 5545, 3.3.5: a local time shown twice is the first; one never shown is read with the offset before the gap.
  it("is the first of two where the clock is put back, and later by the gap where it is put forward", () => {
    expect(at("2026-10-25", "01:30")).toBe("2026-10-25T00:30:00.000Z"); // summer time still; 01:30 UTC is the second
    expect(at("2026-03-29", "01:30")).toBe("2026-03-29T01:30:00.000Z"); // shown as 02:30 summer time
    expect(at("2026-11-01", "01:30", "America/New_York")).toBe("2026-11-01T05:30:00.000Z");
    expect(at("2026-03-08", "02:30", "America/New_York")).toBe("2026-03-08T07:30:00.000Z");
  });

  it("comes back as it was typed at every hour of the year that a clock shows", () => {
    for (const zone of [DUBLIN, "Australia/Lord_Howe", "America/Los_Angeles", "Asia/Kathmandu"])
      for (let at_ms = Date.UTC(2026, 0, 1, 0, 15); at_ms < Date.UTC(2027, 0, 1); at_ms += 61 * 3_600_000) {
        const day = new Intl.DateTimeFormat("sv-SE", { timeZone: zone, dateStyle: "short" }).format(at_ms);
        const found = instantOf(day, timeText(at_ms, zone), zone);
        expect([at_ms, at_ms - 3_600_000, at_ms - 1_800_000], `${day} in ${zone}`).toContain(found);
      }
  });

  it("is refused ahead of now, with a year of two digits, and where it is no time", () => {
    const now = new Date("2026-03-08T21:00:00Z");
    const read = (day: string, time: string) => momentToDate({ kind: "then", day, time }, now, DUBLIN);
    expect(read("2026-03-08", "21:00")).toEqual(now);
    expect(read("2026-03-08", "21:01")).toBeUndefined();
    expect(read("0026-03-08", "21:00")).toBeUndefined();
    expect(read("", "21:00")).toBeUndefined();
    expect(read("2026-03-08", "")).toBeUndefined();
    expect(momentToDate({ kind: "now" }, now, DUBLIN)).toBeNull();
  });
});
