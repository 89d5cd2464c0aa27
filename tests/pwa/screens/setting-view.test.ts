// @vitest-environment happy-dom
import { expect, it } from "vitest";
import { due } from "../../../pwa/src/book/agenda.ts";
import { settingHeadline } from "../../../pwa/src/screens/setting-headline.ts";
import { settingView } from "../../../pwa/src/screens/setting-view.ts";
import { amend, taskDone } from "../../../pwa/src/state/holding.ts";
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
