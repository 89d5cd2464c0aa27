// @vitest-environment happy-dom
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { RoomsScreen } from "../../../pwa/src/screens/rooms.tsx";
import { machineHeading } from "../../../pwa/src/screens/told-machine.ts";
import { record } from "../../../pwa/src/state/actions.ts";
import { addPlace, lockDown } from "../../../pwa/src/state/holding.ts";
import { startSetting } from "../../../pwa/src/state/set-eggs.ts";
import { entries, standing } from "../../../pwa/src/state/standing.ts";
import { killApp, NOW_MS } from "../state/surroundings.ts";
import { holdingAt, settle, show, tap } from "./holding.ts";

const DAY_MS = 86_400_000;

afterAll(killApp);

const card = (name: string): HTMLElement => {
  const found = document.querySelector<HTMLElement>(`section[aria-label="${name}"]`);
  if (!found) throw new Error(`no card ${name}: ${document.body.textContent}`);
  return found;
};
const kinds = () => entries.value.filter((entry) => !entry.void).map((entry) => entry.kind);

describe("the card of a machine", () => {
  let holding: Awaited<ReturnType<typeof holdingAt>>;
  beforeEach(async () => {
    holding = await holdingAt(5);
    show(<RoomsScreen />);
    await settle();
  });

  it("turns with one tap and names the side that is next; undo takes the side back", async () => {
    await tap("Turned, X up");
    expect(card("Loft box").textContent).toContain("Turned 1 time today, an odd number. X up.");
    await tap("Turned, O up"); // the rest of a double tap, on the button's next word
    expect(card("Loft box").textContent).toContain("Turned 1 time today");
    await new Promise((resolve) => setTimeout(resolve, 520));
    await tap("Turned, O up");
    expect(card("Loft box").textContent).toContain("Turned 2 times today: once more makes it odd. O up.");
    await tap("Undo: Turned, O up");
    expect(card("Loft box").textContent).toContain("an odd number. X up.");
    expect(standing.value.heads.turned?.map((head) => head.body.side)).toEqual(["x"]);
  });

  it("keeps the side when the turn is dated anew, and the time when the side is put right", async () => {
    await tap("Turned, X up");
    await tap("No, O is up");
    await tap("Not now");
    await tap("Yesterday");
    await tap("That was when");
    const [head] = standing.value.heads.turned ?? [];
    expect(head?.body.side).toBe("o");
    expect(head && NOW_MS - head.atMs).toBeGreaterThan(20 * 3_600_000);
  });

  it("says in its headline what is worst: a power cut, then air that strayed, then how many eggs there are", async () => {
    const title = () => document.querySelector("h1")?.textContent;
    expect(title()).toBe("40 eggs in 1 machine");
    // 2.6 °F above 99.5 °F: just beyond the 2.5 °F that are allowed.
    await record(
      "air",
      { place: holding.place, dry_c: 37.5 + 2.6 / 1.8 },
      { at: new Date(NOW_MS - 3_600_000) },
    );
    await settle();
    expect(title()).toBe("Loft box: 1.4 °C above the target");
    await tap("Power is off");
    expect(title()).toBe("Power off for 0 min");
    await tap("It was no power cut");
    expect(title()).toBe("Loft box: 1.4 °C above the target");
    await record("air", { place: holding.place, dry_c: 37.6 });
    await settle();
    expect(title()).toBe("40 eggs in 1 machine");
  });

  it("runs a clock while the power is off, and tells when to candle again", async () => {
    await tap("Power is off");
    expect(card("Loft box").textContent).toContain("Power off since");
    expect(standing.value.heads.outage?.[0]?.body.until).toBeUndefined();
    await tap("Power is back");
    expect(card("Loft box").textContent).toMatch(/The power was away 0 min.*Candle again between/);
    expect(standing.value.heads.outage?.[0]?.body.until).toBeDefined();
  });

  it("judges the last reading by what these eggs want, and only by one of their own", async () => {
    const air = (hours: number, dry_c: number, humidity_pct: number) =>
      record(
        "air",
        { place: holding.place, dry_c, humidity_pct },
        { at: new Date(NOW_MS - hours * 3_600_000) },
      );
    await air(6 * 24, 30, 40);
    await settle();
    expect(card("Loft box").textContent).toContain("not read since these eggs were set");
    await air(2, 37.6, 55);
    await settle();
    expect(card("Loft box").textContent).toContain("37.6 °C, 55 % 2 h ago, both in the band");
    await air(1, 39.6, 45);
    await settle();
    // 99.5 °F is 37.5 °C; 2.1 °C above is beyond the 3.5 °F that are called deadly.
    expect(card("Loft box").textContent).toContain("2.1 °C above the target: act now, drier than 50 %");
    expect(card("Loft box").textContent).toContain(
      "Nobody has checked the thermometer and hygrometer this season.",
    );
  });

  it("shows eggs that came later as a second strip, and says that the two do not go together at lockdown", async () => {
    const set_at = new Date(NOW_MS - DAY_MS);
    await startSetting({
      place: holding.place,
      species: "chicken",
      set_at,
      lots: [{ family: holding.rowan, n: 6 }],
    });
    await settle();
    expect(card("Loft box").querySelectorAll(".incubation")).toHaveLength(2);
    await lockDown(holding.setting);
    await settle();
    expect(card("Loft box").textContent).toContain("best in two machines");
  });

  it("says where two kinds of eggs in one machine want another warmth", async () => {
    const add = async (species: string) => {
      const set_at = new Date(NOW_MS - DAY_MS);
      await startSetting({ place: holding.place, species, set_at, lots: [{ family: holding.rowan, n: 6 }] });
      await settle();
      return card("Loft box").textContent;
    };
    expect(await add("duck")).not.toContain("One machine gives one temperature");
    // Texas A&M B-6092 (copy): chicken and duck 99.5 °F, pigeon 100.5 °F.
    expect(await add("pigeon")).toContain("Chicken eggs want 37.5 °C, pigeon eggs 38.1 °C.");
  });

  it("asks a hen for nothing but candling, and an empty machine to be run and checked", async () => {
    const hen = (await addPlace({ name: "Old Speckle", role: "hen" })).id;
    await addPlace({ name: "Cabinet", role: "incubator" });
    await startSetting({
      place: hen,
      species: "chicken",
      set_at: new Date(NOW_MS - DAY_MS),
      lots: [{ family: holding.rowan, n: 9 }],
    });
    await settle();
    expect(card("Old Speckle").textContent).toContain("She turns, warms and airs the eggs herself.");
    expect(card("Old Speckle").textContent).not.toMatch(/Turned|Water filled|Read the air|Weigh/);
    expect(card("Cabinet").textContent).toContain("run it a day or two and check its gauges");
  });

  it("tells what is in brooders and pens", async () => {
    const brooder = (await addPlace({ name: "Brooder one", role: "brooder" })).id;
    const pen = (await addPlace({ name: "Orchard", role: "pen" })).id;
    expect(kinds()).toContain("place");
    await record("moved", { moves: [{ lot: holding.first, from: "set", to: "hatched", n: 7 }] });
    await record("moved", {
      moves: [{ lot: holding.first, from: "hatched", to: "brooding", n: 5 }],
      why: "pulled",
      place: brooder,
    });
    await record("penned", {
      family: holding.hazel,
      place: pen,
      since: "2026-01-01",
      sires: [{ bird: "a" }],
      dams: [{ bird: "b" }, { bird: "c" }],
    });
    await settle();
    expect(card("Brooder one").textContent).toContain("Rowan5 chicks, hatched today");
    // 90 to 95 °F in the first week, by the five sources that name the weekly step.
    expect(card("Brooder one").textContent).toContain("hatched today: 32 to 35 °C");
    expect(card("Orchard").textContent).toContain("Hazel: 1 male, 2 females");
  });
});

describe("the book's lines about a machine", () => {
  it("tell the figures as they were written", async () => {
    const { place, setting } = await holdingAt(5);
    const told = async (...written: Parameters<typeof record>) =>
      machineHeading(await record(...written), standing.value);
    expect(await told("air", { place, dry_c: 37.5, wet_c: 30 })).toBe(
      "Air in Loft box: 37.5 °C, wet bulb 30.0 °C",
    );
    expect(await told("gauge_checked", { place, gauge: "humidity", reads: 50, true_value: 48 })).toBe(
      "Hygrometer of Loft box checked: it reads 2.0 points too high",
    );
    expect(await told("turned", { place, side: "o" })).toBe("Turned, O up, Loft box");
    expect(await told("watered", { place })).toBe("Water filled, Loft box");
    expect(await told("outage", { from: "2026-03-01T08:00:00Z", until: "2026-03-01T10:10:00Z" })).toBe(
      "The power was away 2 h 10 min",
    );
    expect(await told("eggs_weighed", { setting, n: 20, gross_g: 1450, tare_g: 250 })).toBe(
      "20 eggs weighed, 60.0 g each, Loft box",
    );
    expect(await told("note", { text: "quiet" })).toBeNull();
  });
});
