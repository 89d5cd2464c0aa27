import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dayNumber, happenedMs, momentMs } from "../../../pwa/src/book/moments.ts";

describe("times with a zone", () => {
  it("are those of the platform's own calendar", () => {
    const times = fc.date({
      min: new Date("0001-01-01T00:00:00Z"),
      max: new Date("9999-12-31T23:59:59.999Z"),
      noInvalidDate: true,
    });
    fc.assert(
      fc.property(times, (time) => {
        expect(momentMs(time.toISOString())).toBe(time.getTime());
        expect(dayNumber(time.toISOString().slice(0, 10))).toBe(Math.floor(time.getTime() / 86_400_000));
      }),
    );
  });

  it.each([
    ["2026-03-08T19:40Z", "2026-03-08T19:40:00.000Z"],
    ["2026-03-08T19:40:12.3Z", "2026-03-08T19:40:12.300Z"],
    ["2026-03-08T19:40:12.345999999Z", "2026-03-08T19:40:12.345Z"],
    ["2026-03-08T19:40:00+05:30", "2026-03-08T14:10:00.000Z"],
    ["2026-03-08T19:40:00-02:00", "2026-03-08T21:40:00.000Z"],
  ])("%s", (text, same) => {
    expect(momentMs(text)).toBe(Date.parse(same));
  });

  // Much of this Date.parse would read.
  it.each([
    "2026-02-29T00:00:00Z",
    "1900-02-29T00:00:00Z",
    "2026-04-31T00:00:00Z",
    "2026-13-01T00:00:00Z",
    "2026-00-01T00:00:00Z",
    "0000-01-01T00:00:00Z",
    "2026-03-08T24:00:00Z",
    "2026-03-08T19:60:00Z",
    "2026-03-08T19:40:60Z",
    "2026-03-08T19:40:00",
    "2026-03-08T19:40:00+24:00",
    "2026-03-08T19:40:00+0530",
    "2026-03-08T19:40:00.1234567890Z",
    "2026-03-08 19:40:00Z",
    "2026-03-08T19:40:00Z\n",
    "+002026-03-08T19:40:00Z",
    "2026-03-08",
    "٢٠٢٦-03-08T19:40:00Z",
  ])("there is no time %j", (text) => {
    expect(momentMs(text)).toBeNull();
  });

  it("are set right by a skew over two minutes, within the calendar", () => {
    const at = "2026-03-08T19:40:00Z";
    expect(happenedMs(at, null)).toBe(Date.parse(at));
    expect(happenedMs(at, 120_000)).toBe(Date.parse(at));
    expect(happenedMs(at, -120_001)).toBe(Date.parse(at) - 120_001);
    expect(happenedMs(at, Number.MAX_SAFE_INTEGER)).toBe(Date.parse("9999-12-30T00:00:00Z"));
    expect(happenedMs(at, -Number.MAX_SAFE_INTEGER)).toBe(Date.parse("0001-01-02T00:00:00Z"));
  });
});

it.each(["2026-02-29", "0000-01-01", "2026-3-01", "2026-03-01T", "2026-03-01\n"])(
  "there is no day %j",
  (text) => {
    expect(dayNumber(text)).toBeNull();
  },
);
