import { describe, expect, it } from "vitest";
import { fold } from "../../../pwa/src/book/fold.ts";
import { airOf, readingsAt } from "../../../pwa/src/book/readings.ts";
import { readVectors } from "../vectors.ts";
import { entriesOf } from "./entries-of.ts";

interface ReadingVectors {
  cases: {
    name: string;
    in: { setting: string; entries: unknown[] };
    out: {
      readings: [number, string, number, number | null, number | null, boolean][];
      gauges: [string, string, number | null, number | null][];
      problems: string[];
      last_humidity_pct: number | null;
      humidity_checked: boolean;
    };
  }[];
}

const { cases } = readVectors("readings") as ReadingVectors;
const near = (value: number | null) => (value === null ? null : expect.closeTo(value, 8));

describe("the air of a setting is what the server says", () => {
  it.each(cases)("$name", ({ in: asked, out }) => {
    const standing = fold(entriesOf(asked.entries));
    const setting = standing.settings.get(asked.setting);
    if (!setting) throw new Error("no setting");
    const air = airOf(
      standing,
      setting,
      setting.lots.flatMap((lot) => standing.lots.get(lot) ?? []),
    );
    expect(
      air.readings.map((one) => [one.atMs, one.phase, one.dryC, one.offC, one.humidityPct, one.corrected]),
    ).toEqual(
      out.readings.map(([atMs, phase, dry, off, humidity, corrected]) => [
        atMs,
        phase,
        near(dry),
        near(off),
        near(humidity),
        corrected,
      ]),
    );
    expect(air.gauges.map(({ place, name, checkedMs, off }) => [place, name, checkedMs, off])).toEqual(
      out.gauges.map(([place, name, checked, off]) => [place, name, checked, near(off)]),
    );
    const problems = [
      ...air.readings.flatMap(({ odd }) => odd ?? []),
      ...air.unreadable.map(() => "temperature"),
    ];
    // A height that cannot be is the server's to tell: the phone's form of the holding refuses it.
    expect(problems.sort()).toEqual(out.problems.filter((code) => code !== "height"));
    expect(air.lastHumidityPct).toEqual(near(out.last_humidity_pct));
    expect(air.humidityChecked).toBe(out.humidity_checked);
  });

  it("tells of a place what was read there, also with no eggs in it", () => {
    const { entries } = cases.find(({ name }) => name.startsWith("dry bulb"))?.in ?? { entries: [] };
    const standing = fold(entriesOf(entries));
    const [place = ""] = [...standing.places.keys()];
    expect(readingsAt(standing, place).map(({ dryC }) => dryC)).toEqual([37, 37.5, 38.1, 37.4]);
    expect(readingsAt(standing, "nowhere")).toEqual([]);
  });
});
