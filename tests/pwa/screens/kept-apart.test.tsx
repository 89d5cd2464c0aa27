// @vitest-environment happy-dom
import { afterAll, expect, it } from "vitest";
import { BirdsScreen } from "../../../pwa/src/screens/birds.tsx";
import { BroodPlaceScreen } from "../../../pwa/src/screens/brood-place.tsx";
import { BroodsScreen } from "../../../pwa/src/screens/broods.tsx";
import { DueScreen } from "../../../pwa/src/screens/due.tsx";
import { lotApartUntil } from "../../../pwa/src/screens/kept-apart.tsx";
import { record } from "../../../pwa/src/state/actions.ts";
import { chicksCome } from "../../../pwa/src/state/birds.ts";
import { addPlace } from "../../../pwa/src/state/holding.ts";
import { standing } from "../../../pwa/src/state/standing.ts";
import { killApp, NOW_MS } from "../state/surroundings.ts";
import { holdingAt, settle, show } from "./holding.ts";

const text = () => document.body.textContent ?? "";
const day = (ahead: number) => new Date(NOW_MS + ahead * 86_400_000).toISOString().slice(0, 10);

afterAll(killApp);

it("says of a batch from elsewhere until when it is kept apart, wherever it is looked at, and no longer", async () => {
  const holding = await holdingAt(5);
  const place = (await addPlace({ name: "Far shed", role: "apart" })).id;
  const came = { n: 5, family: holding.hazel, on: day(-3), how: "bought", stage: "growing" } as const;
  await chicksCome({ ...came, apart_until: day(10) }, place);
  const told = /Hazel, 5 young birds: kept apart until [\w ]+\..*wash hands and boots/;
  for (const screen of [
    <BroodsScreen key="1" />,
    <BroodPlaceScreen key="2" id={place} />,
    <BirdsScreen key="3" />,
    <DueScreen key="4" />,
  ]) {
    show(screen);
    await settle();
    expect(text()).toMatch(told);
  }
  const [lot = ""] = [...standing.value.lots.keys()].filter((id) => standing.value.lots.get(id)?.came);
  expect([0, 10, 11].map((ahead) => lotApartUntil(standing.value, lot, day(ahead)))).toEqual([
    day(10),
    day(10),
    null,
  ]);
  await record("moved", { moves: [{ lot, from: "growing", to: "parted", n: 5 }], why: "left" });
  await settle();
  expect(text(), "none of them is here").not.toContain("kept apart");
});
