import { describe, expect, it } from "vitest";
import { momentMs } from "../../../pwa/src/book/moments.ts";
import {
  dayOf,
  incubationCalendar,
  instantText,
  localDate,
  type Milestone,
  milestone,
} from "../../../pwa/src/trade/calendar.ts";
import { speciesNamed } from "../../../pwa/src/trade/species.ts";
import { readVectors } from "../vectors.ts";

interface CalendarVectors {
  cases: {
    name: string;
    in: { species: string; set_at: string; zone: string; now: string; lockdown_day: number | null };
    out: unknown;
  }[];
}

function ms(text: string): number {
  return momentMs(text) ?? Number.NaN;
}

describe("the calendar", () => {
  const { cases } = readVectors("calendar") as CalendarVectors;

  it.each(cases)("$name", ({ in: asked, out }) => {
    const species = speciesNamed(asked.species);
    if (species === undefined) throw new Error(asked.species);
    const setAtMs = ms(asked.set_at);
    const plan = incubationCalendar(species, setAtMs, asked.lockdown_day);
    const told = ({ day, atMs }: Milestone) => ({
      day,
      at: instantText(atMs),
      date: localDate(atMs, asked.zone),
    });
    expect({
      day: dayOf(setAtMs, ms(asked.now)),
      candle: plan.candle.map(told),
      lockdown: told(plan.lockdown),
      hatch_from: told(plan.hatchFrom),
      hatch_to: told(plan.hatchTo),
    }).toEqual(out);
  });

  it("loses no millisecond to a part of a day", () => {
    // A tenth of a day is 8 640 000 ms to the last one, which tenths in binary fractions are not.
    for (let tenths = 1; tenths < 400; tenths += 1) {
      expect(milestone(0, tenths / 10).atMs).toBe(tenths * 8_640_000);
    }
  });

  it("is held at the end of the calendar", () => {
    expect(instantText(milestone(0, 1e12).atMs)).toBe("9999-12-30T00:00:00.000Z");
  });

  it("takes an offset for no zone, as the server does", () => {
    expect(localDate(ms("2026-03-01T23:30:00Z"), "+05:00")).toBe("2026-03-01");
    expect(localDate(ms("2026-03-01T23:30:00Z"), "Asia/Karachi")).toBe("2026-03-02");
  });

  it("writes early years with four digits", () => {
    expect(localDate(ms("0099-03-01T12:00:00Z"), "UTC")).toBe("0099-03-01");
  });
});
