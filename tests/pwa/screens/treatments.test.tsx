// @vitest-environment happy-dom
import { afterAll, describe, expect, it } from "vitest";
import { birdsOf } from "../../../pwa/src/book/birds.ts";
import { BirdScreen } from "../../../pwa/src/screens/bird.tsx";
import { BirdsLeave } from "../../../pwa/src/screens/bird-leaves.tsx";
import { BroodBatchScreen } from "../../../pwa/src/screens/brood-batch.tsx";
import { BroodPlaceScreen } from "../../../pwa/src/screens/brood-place.tsx";
import { ChooseScreen } from "../../../pwa/src/screens/choose.tsx";
import { TreatmentsScreen } from "../../../pwa/src/screens/treatments.tsx";
import { record } from "../../../pwa/src/state/actions.ts";
import { birdsLeave } from "../../../pwa/src/state/birds.ts";
import { addPlace } from "../../../pwa/src/state/holding.ts";
import { standing } from "../../../pwa/src/state/standing.ts";
import { treat } from "../../../pwa/src/state/treating.ts";
import { killApp, NOW_MS } from "../state/surroundings.ts";
import { holdingAt, settle, show, tap } from "./holding.ts";

afterAll(killApp);

const DAY_MS = 86_400_000;
const ago = (days: number) => ({ at: new Date(NOW_MS - days * DAY_MS) });
const told = () =>
  [...document.querySelectorAll(".notice.watch b")].map((one) => one.textContent?.replace(/,? after .*/, ""));
const MEAT = (who: string) => [`Meat of ${who} not for eating until Mar 27`];

/** Seven chicks of Rowan in a brooder, treated there two and three days ago in their water. */
async function treated() {
  const holding = await holdingAt(40);
  const brooder = (await addPlace({ name: "Brooder one", role: "brooder" })).id;
  const pen = (await addPlace({ name: "Grow-out", role: "pen" })).id;
  const move = (from: string, to: string, n: number, days: number, place?: string) =>
    record("moved", { moves: [{ lot: holding.first, from, to, n }], ...(place ? { place } : {}) }, ago(days));
  await move("set", "hatched", 7, 19);
  await move("hatched", "brooding", 7, 18, brooder);
  const days = { from: "2026-03-05", until: "2026-03-06", no_meat_until: "2026-03-27" };
  await treat({ place: brooder, product: "Drops in the water", ...days });
  return { ...holding, brooder, pen, move };
}

describe("meat of chicks that were treated with all in their brooder", () => {
  it("is told where they stand, on their page, and before they are sold or culled", async () => {
    const { first, brooder } = await treated();
    show(<BroodPlaceScreen id={brooder} />);
    await settle();
    expect(told()).toEqual(MEAT("Brooder one"));
    show(<BroodBatchScreen id={first} />);
    await settle();
    expect(told()).toEqual(MEAT("Rowan"));
    show(<ChooseScreen id={first} />);
    for (const act of ["Sell or give", "Cull"]) {
      await settle();
      await tap(act);
      expect([act, told()]).toEqual([act, MEAT("Rowan")]);
    }
  });

  it("goes with them to another place, and not to those that come after them", async () => {
    const { first, second, brooder, pen, move } = await treated();
    await move("brooding", "growing", 7, 1, pen);
    show(<BroodPlaceScreen id={pen} />);
    await settle();
    expect(told()).toEqual(MEAT("Rowan"));
    const others = [{ lot: second, from: "set", to: "hatched", n: 4 }];
    await record("moved", { moves: others, why: "hatch" }, ago(1));
    const brought = [{ lot: second, from: "hatched", to: "brooding", n: 4 }];
    await record("moved", { moves: brought, place: brooder }, ago(0.5));
    for (const screen of [<BroodPlaceScreen id={brooder} />, <BroodBatchScreen id={second} />]) {
      show(screen);
      await settle();
      expect(told()).toEqual([]);
    }
    show(<BroodBatchScreen id={first} />);
    await settle();
    expect(told()).toEqual(MEAT("Rowan"));
  });

  it("goes with the bird that is kept of them, also when it is culled; of one that died nothing is said", async () => {
    const { first, rowan } = await treated();
    const lots = [{ lot: first, share: 1 }];
    const { id } = await record("bird", { sex: "male", family: rowan, name: "Cy", lots });
    show(<BirdScreen id={id} />);
    await settle();
    expect(told()).toEqual(MEAT("Cy"));
    const bird = birdsOf(standing.value, null).get(id);
    if (!bird) throw new Error("no bird");
    show(<BirdsLeave birds={[bird]} onDone={() => undefined} />);
    await settle();
    for (const [how, lines] of [
      ["Sold", 1],
      ["Given", 1],
      ["Lent", 1],
      ["Culled", 1],
      ["Died", 0],
    ] as const) {
      await tap(how);
      expect([how, told().length]).toEqual([how, lines]);
    }
  });
});

it("a treatment that is changed stays that of its bird, also where that one is gone", async () => {
  const { rowan } = await holdingAt(3);
  await record("bird", { sex: "female", family: rowan, name: "Alba" });
  const bella = (await record("bird", { sex: "female", family: rowan, name: "Bella" })).id;
  await treat({ bird: bella, product: "Drops", from: "2026-03-01", no_eggs_until: "2026-03-20" });
  await birdsLeave([bella], { on: "2026-03-06", how: "sold" });
  show(<TreatmentsScreen bird={null} />);
  await settle();
  await tap("Change");
  const chosen = [...document.querySelectorAll("select")].map((one) => one.selectedOptions[0]?.textContent);
  expect(chosen).toContain("Bella");
  await tap("Save the treatment");
  expect(standing.value.heads.treated?.map(({ body }) => body.bird)).toEqual([bella]);
});

it("a treatment that is changed stays that of its batch, also where none of it lives", async () => {
  const { first, second } = await holdingAt(30);
  for (const [lot, to] of [
    [first, "parted"],
    [second, "brooding"],
  ] as const)
    for (const [from, then] of [
      ["set", "hatched"],
      ["hatched", to],
    ] as const)
      await record("moved", { moves: [{ lot, from, to: then, n: 3 }] }, ago(5));
  await treat({ lot: first, product: "Drops", from: "2026-03-01" });
  show(<TreatmentsScreen bird={null} />);
  await settle();
  await tap("Change");
  await tap("Save the treatment");
  expect(standing.value.heads.treated?.map(({ body }) => body.lot)).toEqual([first]);
});
