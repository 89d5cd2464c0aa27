import { describe, expect, it } from "vitest";
import { fold } from "../../../pwa/src/book/fold.ts";
import { airOf } from "../../../pwa/src/book/readings.ts";
import { faultOf, lossOutlook, weighingsOf } from "../../../pwa/src/book/weighings.ts";
import { readVectors } from "../vectors.ts";
import { entriesOf } from "./entries-of.ts";

interface WeighingVectors {
  cases: {
    name: string;
    in: { now: string; setting: string; entries: unknown[] };
    out: {
      points: [number, number, string | null, number][];
      error_pct: number;
      faults: [string, string][];
      recounted: number;
      projected_pct: number | null;
      band_pct: [number, number] | null;
      by_day: number | null;
      corridor_pct: [number, number] | null;
      advice: string | null;
      unchecked: boolean;
      humidity_pct: number | null;
    };
  }[];
}

const { cases } = readVectors("weighings") as WeighingVectors;

function weighed(entries: unknown[], id: string, nowMs: number) {
  const standing = fold(entriesOf(entries));
  const setting = standing.settings.get(id);
  if (!setting) throw new Error(`no setting ${id}`);
  const lots = setting.lots.flatMap((lot) => standing.lots.get(lot) ?? []);
  const found = weighingsOf(standing, setting);
  return { found, outlook: lossOutlook(setting, found, airOf(standing, setting, lots), nowMs) };
}

describe("water loss is what the server says", () => {
  it.each(cases)("$name", ({ in: asked, out }) => {
    const { found, outlook } = weighed(asked.entries, asked.setting, Date.parse(asked.now));
    const near = (value: number) => expect.closeTo(value, 8);
    expect(found.points.map(({ day, lossPct, lot, sinceDay }) => [day, lossPct, lot, sinceDay])).toEqual(
      out.points.map(([day, loss, lot, since]) => [near(day), near(loss), lot, near(since)]),
    );
    expect(found.errorPct).toBeCloseTo(out.error_pct, 8);
    expect(found.faults.map(({ entry, code }) => [entry, code])).toEqual(out.faults);
    expect(found.recounted.length).toBe(out.recounted);
    if (out.points.length === 0) return;
    const { projection, target, advice } = outlook;
    expect(outlook.byDay).toBe(out.by_day);
    expect(target && [target.lowPct, target.highPct]).toEqual(out.corridor_pct?.map(near) ?? null);
    expect(projection?.middlePct ?? null).toEqual(
      out.projected_pct === null ? null : near(out.projected_pct),
    );
    expect(projection && [projection.lowPct, projection.highPct]).toEqual(out.band_pct?.map(near) ?? null);
    expect(advice?.words ?? null).toBe(out.advice);
    expect(advice?.humidityPct ?? null).toEqual(out.humidity_pct === null ? null : near(out.humidity_pct));
    expect(outlook.unchecked).toBe(out.unchecked);
  });

  it("speaks of every way a weighing can be wrong and every advice", () => {
    const codes = cases.flatMap(({ out }) => out.faults.map(([, code]) => code));
    expect(new Set(codes)).toEqual(new Set(["tare_over_gross", "weighed_before_setting", "weight_gained"]));
    expect(cases.filter(({ out }) => out.advice !== null).length).toBeGreaterThan(4);
  });
});

describe("before a weighing is written", () => {
  const { in: asked } = cases.find(({ name }) => name === "on the way") ?? { in: null };
  const { found } = weighed(asked?.entries ?? [], asked?.setting ?? "", 0);

  it("refuses an empty tray, a gain, and eggs not set yet, and takes what can be", () => {
    const tray = (eggG: number, day = 12) => ({ eggG, n: 20, day });
    expect(faultOf(found, null, tray(-1), 250)).toBe("tare_over_gross");
    expect(faultOf(found, null, tray(57), 250)).toBe("weight_gained");
    expect(faultOf(found, null, tray(55, -2), 250)).toBe("weighed_before_setting");
    expect(faultOf(found, null, tray(55), 250)).toBeNull();
    expect(faultOf(found, "another tray", tray(70), 250)).toBeNull();
  });
});
