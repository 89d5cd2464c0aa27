// @vitest-environment happy-dom
import { describe, expect, it } from "vitest";
import { due } from "../../../pwa/src/book/agenda.ts";
import { settingHeadline } from "../../../pwa/src/screens/setting-headline.ts";
import { settingView } from "../../../pwa/src/screens/setting-view.ts";
import { record } from "../../../pwa/src/state/actions.ts";
import { amend, lockDown, taskDone } from "../../../pwa/src/state/holding.ts";
import { standing } from "../../../pwa/src/state/standing.ts";
import { NOW_MS } from "../state/surroundings.ts";
import { holdingAt } from "./holding.ts";

async function atDay(day: number, role: "incubator" | "hen", isCandled = false) {
  const { place, setting } = await holdingAt(day);
  await amend(place, "place", { name: "Dot", role });
  if (isCandled) await taskDone("candle", new Date(NOW_MS).toISOString().slice(0, 10));
  const found = standing.value.settings.get(setting);
  if (!found) throw new Error("no setting");
  const view = settingView(standing.value, found, NOW_MS);
  const { tasks } = due(standing.value, new Date(NOW_MS));
  return [view.next, settingHeadline(view, tasks, NOW_MS, "Europe/Dublin")];
}

it("says what is late as Due does, and asks for no candling that was done", async () => {
  expect(await atDay(7, "incubator")).toEqual(["candle", "Day 7: candle today"]);
  expect(await atDay(7, "incubator", true)).toEqual(["candle", "Candling in 7 days"]);
  expect(await atDay(9, "incubator")).toEqual(["candle", "Candling is late"]);
  expect(await atDay(19, "incubator")).toEqual(["lockdown", "Lockdown is late"]);
});

it("a hen has no lockdown: after the last candling come the chicks", async () => {
  expect(await atDay(16, "incubator", true)).toEqual(["candle", "Lockdown in 2 days"]);
  expect(await atDay(18, "incubator")).toEqual(["lockdown", "Lockdown is due"]);
  expect(await atDay(16, "hen", true)).toEqual(["candle", "Chicks due in 5 days"]);
  expect(await atDay(18, "hen")).toEqual(["hatch", "Chicks due in 3 days"]);
  expect(await atDay(21, "hen")).toEqual(["hatch", "Chicks are due"]);
});

describe("a transfer into the hatcher that was broken off", () => {
  const carried = async (day: number, n: number, role: "incubator" | "hen" = "incubator") => {
    const holding = await holdingAt(day);
    await amend(holding.place, "place", { name: "Dot", role });
    const { first, second } = holding;
    const moves = [
      { lot: first, from: "set", to: "locked", n: Math.min(n, 24) },
      ...(n > 24 ? [{ lot: second, from: "set", to: "locked", n: n - 24 }] : []),
    ];
    await record("moved", { moves, why: "lockdown" });
    return holding;
  };
  const next = (setting: string) => {
    const found = standing.value.settings.get(setting);
    return found ? settingView(standing.value, found, NOW_MS).next : undefined;
  };

  it("stays the next thing, also before its day and with every egg carried over", async () => {
    for (const [day, n] of [
      [16, 1],
      [18, 10],
      [18, 40],
      [21, 30],
    ] as const) {
      const { setting } = await carried(day, n);
      expect([day, n, next(setting)]).toEqual([day, n, "lockdown"]);
    }
  });

  it("is over once lockdown is written down; a hen knows of none", async () => {
    const { setting } = await carried(18, 10);
    await lockDown(setting);
    expect(next(setting)).toBe("hatch");
    expect(next((await carried(18, 10, "hen")).setting)).toBe("hatch");
  });

  it("gives way to the chicks, once there are any", async () => {
    const { setting, first } = await carried(21, 30);
    await record("moved", { moves: [{ lot: first, from: "locked", to: "hatched", n: 1 }], why: "hatch" });
    expect(next(setting)).toBe("hatch");
  });
});
