// @vitest-environment happy-dom
import { afterAll, expect, it } from "vitest";
import { PapersScreen } from "../../../pwa/src/screens/papers.tsx";
import { startSetting } from "../../../pwa/src/state/set-eggs.ts";
import { killApp, NOW_MS } from "../state/surroundings.ts";
import { holdingAt, settle, show } from "./holding.ts";

afterAll(killApp);

it("tells hatches of one day in several years apart by the year", async () => {
  const { place, rowan } = await holdingAt(0);
  const now = new Date(NOW_MS);
  for (const ago of [1, 2]) {
    const set_at = new Date(NOW_MS);
    set_at.setUTCFullYear(now.getUTCFullYear() - ago);
    await startSetting({ place, species: "chicken", set_at, lots: [{ family: rowan, n: 6 }] });
  }
  show(<PapersScreen />);
  await settle();
  const titles = [...document.querySelectorAll("h2")].map((one) => one.textContent ?? "");
  const ofHatches = titles.filter((one) => one.startsWith("Loft box, set"));
  expect(new Set(ofHatches).size).toBe(3);
  const years = ofHatches.map((one) => one.match(/\d{4}/)?.[0]);
  expect(years).toEqual([undefined, `${now.getUTCFullYear() - 1}`, `${now.getUTCFullYear() - 2}`]);
});
