// @vitest-environment happy-dom
import { expect, it } from "vitest";
import { settingHeadline } from "../../../pwa/src/screens/setting-headline.ts";
import { settingView } from "../../../pwa/src/screens/setting-view.ts";
import { amend } from "../../../pwa/src/state/holding.ts";
import { standing } from "../../../pwa/src/state/standing.ts";
import { NOW_MS } from "../state/surroundings.ts";
import { holdingAt } from "./holding.ts";

async function atDay(day: number, role: "incubator" | "hen") {
  const { place, setting } = await holdingAt(day);
  await amend(place, "place", { name: "Dot", role });
  const found = standing.value.settings.get(setting);
  if (!found) throw new Error("no setting");
  const view = settingView(standing.value, found, NOW_MS);
  return [view.next, settingHeadline(view, NOW_MS, "Europe/Dublin")];
}

it("a hen has no lockdown: after the last candling come the chicks", async () => {
  expect(await atDay(16, "incubator")).toEqual(["candle", "Lockdown in 2 days"]);
  expect(await atDay(18, "incubator")).toEqual(["lockdown", "Lockdown is due"]);
  expect(await atDay(16, "hen")).toEqual(["candle", "Chicks due in 5 days"]);
  expect(await atDay(18, "hen")).toEqual(["hatch", "Chicks due in 3 days"]);
  expect(await atDay(21, "hen")).toEqual(["hatch", "Chicks are due"]);
});
