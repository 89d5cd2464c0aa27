// @vitest-environment happy-dom
// A hatch of forty eggs written by hand, so that every figure of its line of days can be counted on paper:
// day 0 set 24 and 16; air of 37.5 °C on days 1 to 3 and 33 °C on day 4, two hours without power then; weighed on days
// 0 and 7 (5 % lost); day 7 twenty live and 4 clear of the first batch; lockdown on day 18; 12 out at 20 days 12 h,
// 8 more six hours later; on day 24 the four clears opened, three infertile and one that died early.
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { SettingTimeLine } from "../../../pwa/src/screens/setting-time-line.tsx";
import { settingView } from "../../../pwa/src/screens/setting-view.ts";
import { placedFindings } from "../../../pwa/src/screens/time-line-findings.ts";
import { timeRows } from "../../../pwa/src/screens/time-line-rows.ts";
import { timeLine } from "../../../pwa/src/screens/time-line-view.ts";
import { record } from "../../../pwa/src/state/actions.ts";
import { settingTold } from "../../../pwa/src/state/reports.ts";
import { parseSetting } from "../../../pwa/src/state/setting-report.ts";
import { standing } from "../../../pwa/src/state/standing.ts";
import { killApp, NOW_MS } from "../state/surroundings.ts";
import { holdingAt, settle, show } from "./holding.ts";

const DAY_MS = 86_400_000;
const TODAY = 25;
const SET_MS = NOW_MS - TODAY * DAY_MS;
let setting = "";

const on = (day: number) => ({ at: new Date(SET_MS + day * DAY_MS) });
const view = () => {
  const found = standing.value.settings.get(setting);
  if (!found) throw new Error("no setting");
  return settingView(standing.value, found, NOW_MS);
};
const line = () => timeLine(standing.value, view(), NOW_MS);
const inOrder = (values: readonly number[]) => [...values].sort((a, b) => a - b);
const iso = (day: number) => new Date(SET_MS + day * DAY_MS).toISOString();

beforeAll(async () => {
  const { place, first, ...made } = await holdingAt(TODAY);
  setting = made.setting;
  for (const day of [1, 2, 3]) await record("air", { place, dry_c: 37.5, humidity_pct: 50 + day }, on(day));
  await record("outage", { places: [place], from: iso(3.9), until: iso(4) }, on(4));
  await record("air", { place, dry_c: 33 }, on(4));
  for (const [day, gross_g] of [
    [0, 1450],
    [7, 1390],
  ] as const)
    await record("eggs_weighed", { setting, n: 20, gross_g, tare_g: 250 }, on(day));
  await record("looked", { setting, lot: first, what: "candled", day: 7, live: 20 }, on(7));
  const moved = (from: string, to: string, n: number, why: "candled" | "hatch" | "opened", day: number) =>
    record("moved", { moves: [{ lot: first, from, to, n }], why }, on(day));
  await moved("set", "clear", 4, "candled", 7);
  await record("locked", { setting }, on(18));
  await moved("set", "hatched", 12, "hatch", 20.5);
  await moved("set", "hatched", 8, "hatch", 20.75);
  await moved("clear", "infertile", 3, "opened", 24);
  await moved("clear", "dead_early", 1, "opened", 24);
});

afterAll(killApp);

describe("a setting on one line of days", () => {
  it("tells eggs, chicks, candling and opening by the day since setting", () => {
    const { inShell, hatched, candled, opened, outBefore, chicks, spreadH, endDay } = line();
    expect(inShell.map(({ x, y }) => [x, y])).toEqual([
      [0, 40],
      [7, 36],
      [20.5, 24],
      [20.75, 16],
      [25, 16],
    ]);
    expect(hatched).toEqual([
      { x: 20.5, y: 0 },
      { x: 20.5, y: 12 },
      { x: 20.75, y: 20 },
    ]);
    expect([candled, opened]).toEqual([[{ x: 7, y: 36 }], [{ x: 24, y: 4 }]]);
    expect({ outBefore, chicks, spreadH, endDay }).toEqual({
      outBefore: 4,
      chicks: 20,
      spreadH: 6,
      endDay: 25,
    });
  });

  it("tells the air with its band's step at lockdown, the weights in their corridor, and the power cut", () => {
    const { airOut, warmth, humidity, weights, weightBand, warmthBand, cuts } = line();
    expect(airOut).toBe(1);
    expect(warmth.map(({ x, y }) => [x, y])).toEqual([
      [1, 37.5],
      [2, 37.5],
      [3, 37.5],
      [4, 33],
    ]);
    expect(humidity.map(({ y }) => y)).toEqual([51, 52, 53]);
    expect(weights.map((own) => own.map(({ x, y }) => [x, y]))).toEqual([
      [
        [0, 0],
        [7, 5],
      ],
    ]);
    // tables/weight_loss.json: 10.5 to 13 % by day 18 for chickens.
    expect(weightBand.at(-1)).toEqual({ x: 18, low: 10.5, high: 13 });
    expect(warmthBand.map(({ x }) => x)).toEqual([0, 18, 18, 25]);
    expect(warmthBand[3]?.high).toBeLessThan(warmthBand[0]?.high ?? 0);
    expect(cuts.map(({ fromDay, toDay }) => [fromDay.toFixed(1), toDay.toFixed(1)])).toEqual([
      ["3.9", "4.0"],
    ]);
  });

  it("keeps the peak of a thermometer that writes all day", async () => {
    const { place } = view().setting;
    for (let i = 0; i < 300; i += 1)
      await record("air", { place, dry_c: i === 150 ? 41 : 37.5 }, on(8 + i / 100));
    const { warmth } = line();
    expect(warmth.length).toBeLessThan(120);
    expect(Math.max(...warmth.map(({ y }) => y))).toBe(41);
    expect(warmth.map(({ x }) => x)).toEqual(inOrder(warmth.map(({ x }) => x)));
  });

  it("lists the same as a table, in order", () => {
    const rows = timeRows(standing.value, view());
    expect(rows.map(({ atMs }) => atMs)).toEqual(inOrder(rows.map(({ atMs }) => atMs)));
    const told = rows.map(({ atMs, what }) => `${((atMs - SET_MS) / DAY_MS).toFixed(1)} ${what}`);
    for (const row of [
      "0.0 40 eggs set",
      "1.0 37.5 °C, 51 %, 1 reading",
      "3.9 No power for 2.4 h",
      "4.0 33.0 °C, 1 reading",
      "7.0 Candled: 20 live, 4 clear",
      "7.0 All eggs together: 5.0 % lost",
      "18.0 Lockdown done",
      "20.5 Look at the hatch: 12 out, 12 in all",
      "20.8 Look at the hatch: 8 out, 20 in all",
      "24.0 Opened: 3 infertile, 1 died early",
    ])
      expect(told).toContain(row);
  });
});

const causes = [{ words: "eggs kept too long", source: "a handbook" }];
const report = () =>
  parseSetting({
    setting,
    lots: [],
    computed_at: "2026-03-08T19:00:00Z",
    pattern: [
      { finding: "many dead after lockdown", code: "dead_after_transfer", evidence: "6 of 40.", causes },
      { finding: "many dead in the first days", code: "dead_early", evidence: "5 of 40.", causes },
      { finding: "a pairing that is known to lose eggs", code: "lethal_pairing", evidence: "3 died." },
    ],
    hatch: { meanings: [{ words: "The hatch was 14 hours late.", causes }] },
    air: { excursions: [{ way: "cold", from: iso(4), hours: 12, dry_c: 33, tier: "red" }] },
  });

describe("what stands out", () => {
  it("stands over the days in which it came about", () => {
    const found = placedFindings(report(), view(), line(), ({ way }) => way);
    const days = found.map(({ fromDay, toDay, words }) => [fromDay, toDay, words.slice(0, 24)]);
    // Early deaths of chickens: the first week (tables/breakout.json).
    expect(days).toEqual([
      [0, 7, "Many dead in the first d"],
      [0, 20.75, "A pairing that is known "],
      [4, 4.5, "cold."],
      [18, 20.75, "Many dead after lockdown"],
      [20.5, 20.75, "The hatch was 14 hours l"],
    ]);
  });

  it("is the title, numbered over one axis that all lanes share", async () => {
    show(<SettingTimeLine view={view()} now_ms={NOW_MS} />);
    await settle(); // the phone has asked, and is not paired
    settingTold.value = { kind: "away", report: report() };
    await settle();
    expect(document.querySelector("h2")?.textContent).toBe("Many dead after lockdown");
    const numbers = [...document.querySelectorAll(".bracket text")].map((one) => one.textContent);
    expect(numbers).toEqual(["1", "2", "3", "4", "5"]);
    expect(document.body.textContent).toContain("1: Many dead in the first days. 5 of 40.");
    expect(document.body.textContent).toContain("Often seen with: eggs kept too long.");
    const ring = document.querySelector(".ring")?.getAttribute("cx");
    const [weighed] = [...document.querySelectorAll(".time-line > div:last-of-type circle")].slice(-1);
    expect(ring).toBe(weighed?.getAttribute("cx")); // both on day 7
    expect(document.querySelectorAll(".time-line > div").length).toBe(4);
  });

  it("has the ends of the air's band on its axis", async () => {
    show(<SettingTimeLine view={view()} now_ms={NOW_MS} />);
    await settle();
    const [, air] = document.querySelectorAll(".time-line > div");
    const axis = [...(air?.querySelectorAll("text") ?? [])].map((one) => one.textContent);
    const [band] = line().warmthBand;
    expect(axis.slice(0, 2)).toEqual([band?.low.toFixed(1), band?.high.toFixed(1)]); // 36.1 and 38.9
    expect(axis.length).toBeGreaterThan(1);
  });

  it("is what this phone knows where the server never answered", async () => {
    settingTold.value = { kind: "unpaired" };
    show(<SettingTimeLine view={view()} now_ms={NOW_MS} />);
    await settle();
    expect(document.querySelector("h2")?.textContent).toBe("Day 25: 16 eggs in the shell");
    expect(document.body.textContent).toContain("What stands out comes with the server's answer");
  });
});
