// @vitest-environment happy-dom
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { AirScreen } from "../../../pwa/src/screens/air.tsx";
import { DueScreen } from "../../../pwa/src/screens/due.tsx";
import { GaugeScreen } from "../../../pwa/src/screens/gauge.tsx";
import { record } from "../../../pwa/src/state/actions.ts";
import { standing } from "../../../pwa/src/state/standing.ts";
import { killApp, NOW_MS } from "../state/surroundings.ts";
import { holdingAt, settle, show, tap } from "./holding.ts";

const HOUR_MS = 3_600_000;

afterAll(killApp);

const page = () => document.body.textContent ?? "";
const title = () => document.querySelector("h1")?.textContent;

/** Types into the field with this label. */
async function type(label: string, text: string) {
  const named = [...document.querySelectorAll("label")].find((one) => one.textContent === label);
  const field = document.getElementById(named?.htmlFor ?? "") as HTMLInputElement | null;
  if (!field) throw new Error(`no field ${label}`);
  field.value = text;
  field.dispatchEvent(new Event("input", { bubbles: true }));
  await settle();
}

describe("reading the air", () => {
  let place = "";
  const read = (hours: number, dry_c: number, more: object = {}) =>
    record("air", { place, dry_c, ...more }, { at: new Date(NOW_MS - hours * HOUR_MS) });
  beforeEach(async () => {
    place = (await holdingAt(9)).place;
    show(<AirScreen place={place} />);
    await settle();
  });

  it("shows the humidity before it is written, and takes the reading back with one tap", async () => {
    expect(title()).toBe("Read the air");
    await type("Dry bulb, °C", "37,5");
    await type("Wet bulb, °C", "30");
    expect(page()).toContain("That is 58 % humidity.");
    await tap("Write it down");
    expect(standing.value.heads.air?.map(({ body }) => [body.dry_c, body.wet_c, body.by])).toEqual([
      [37.5, 30, "hand"],
    ]);
    expect(title()).toBe("37.5 °C, 58 %: in the band");
    await tap("Undo");
    expect(standing.value.heads.air ?? []).toEqual([]);
    expect(title()).toBe("Read the air");
  });

  it("says when vents are opened, and that the days are from memory", async () => {
    await read(1, 37.6);
    await settle();
    expect(page()).toContain("Chicken: vents a quarter open from day 10, further from day 18.");
    expect(page()).toMatch(/from day 18\. [^.]*\(commonly used, not yet checked against its source\)/);
  });

  it("is asked for on Due where a thermometer fell silent, and a reading by hand answers it", async () => {
    for (const hours of [3, 2.9, 2.8, 2.7]) await read(hours, 39.7, { by: "sensor" });
    show(<DueScreen />);
    await settle();
    expect(page()).toContain("No word from the thermometer, Loft box");
    expect(page()).toContain(
      "Nothing from the thermometer of Loft box for 2 hours, after a reading far too warm. Look at the air of the 40 eggs yourself.",
    );
    expect(document.querySelector(`a[href="/rooms/${place}/air"]`)?.textContent).toBe("Air, Loft box");
    await read(0, 37.6, { by: "hand" });
    await settle();
    expect(page()).not.toContain("thermometer");
  });

  it("writes nothing that cannot be, and says why", async () => {
    await type("Dry bulb, °C", "37.5");
    await type("Wet bulb, °C", "38.5");
    await tap("Write it down");
    expect(page()).toContain("The wet bulb reads above the dry bulb");
    expect(standing.value.heads.air ?? []).toEqual([]);
  });

  it("states over each line how much lay outside the band, and keeps the readings as a table", async () => {
    await read(20, 37.5, { humidity_pct: 55 });
    await read(10, 39.2, { humidity_pct: 45 });
    await read(200, 20);
    await settle();
    const titles = [...document.querySelectorAll("h2")].map((one) => one.textContent);
    expect(titles).toContain("Temperature: 1 of 2 readings outside the band");
    expect(titles).toContain("Humidity: 1 of 2 readings outside what tables give");
    expect(document.querySelectorAll("tbody tr")).toHaveLength(2);
    expect(page()).toContain("It is too warm in there.");
    expect(page()).toContain("15 minutes at 105 °F (40.6 °C) seriously affect embryos.");
    expect(page()).toContain("the scales outrank the hygrometer");
  });

  it("tells from which figures and sources the band comes", async () => {
    await read(1, 37.5, { wet_c: 30 });
    await settle();
    expect(page()).toContain("Dry 37.5 °C, wet 30.0 °C, air pressure 101.3 kPa: 58.2 %.");
    expect(page()).toContain("Chicken: target 37.5 °C. Incubating and Hatching Eggs");
    expect(page()).toContain("The band reaches 1.4 °C above and 1.4 °C below the target (our judgement).");
  });
});

describe("checking a gauge", () => {
  it("says how far off it is, and puts later readings right by that", async () => {
    const { place } = await holdingAt(9);
    show(<GaugeScreen place={place} />);
    await settle();
    expect(page()).toContain("Hygrometer: not checked this season");
    await tap("Hygrometer");
    await type("It reads, %", "80");
    await type("It should read, %", "75");
    expect(page()).toContain("It reads 5.0 points too high.");
    await tap("Gauge checked");
    expect(title()).toBe("One gauge checked this season");
    await record("air", { place, dry_c: 37.5, humidity_pct: 60 }, { at: new Date(NOW_MS + 1000) });
    show(<AirScreen place={place} />);
    await settle();
    expect(title()).toBe("37.5 °C, 55 %: in the band");
    expect(page()).toContain("put right by a gauge check");
  });

  it("doubts a gauge that is far off, and refuses the wrong unit", async () => {
    const { place } = await holdingAt(9);
    show(<GaugeScreen place={place} />);
    await settle();
    await type("It reads, °C", "30");
    await type("It should read, °C", "37.5");
    expect(page()).toContain("That is far off.");
    await type("It should read, °C", "99.5");
    expect(page()).toContain("Is it °F?");
    await tap("Gauge checked");
    expect(standing.value.heads.gauge_checked ?? []).toEqual([]);
  });
});
