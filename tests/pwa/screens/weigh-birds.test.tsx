// @vitest-environment happy-dom
// The scales for birds: whose chick wears the number that was typed, pounds, and a bird that is picked from the list.
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { namedYoung } from "../../../pwa/src/book/named-young.ts";
import { BirdsScreen } from "../../../pwa/src/screens/birds.tsx";
import { ChooseScreen } from "../../../pwa/src/screens/choose.tsx";
import { WeighBirdsScreen } from "../../../pwa/src/screens/weigh-birds.tsx";
import { scopesOf } from "../../../pwa/src/screens/weigh-scope.ts";
import { record } from "../../../pwa/src/state/actions.ts";
import { chicksGo, keepChicks, mayGo, mayKeep } from "../../../pwa/src/state/birds.ts";
import { nameKeeper } from "../../../pwa/src/state/holding.ts";
import { standing } from "../../../pwa/src/state/standing.ts";
import { killApp } from "../state/surroundings.ts";
import { holdingAt, settle, show, stages, tap } from "./holding.ts";

afterAll(killApp);

let lots: { first: string; second: string; place: string };
const lot = (id: string) => {
  const found = standing.value.lots.get(id);
  if (!found) throw new Error("no such batch");
  return found;
};
const weighed = () => (standing.value.heads.weighed ?? []).map(({ body }) => body);

async function type(label: string, text: string): Promise<void> {
  const field = [...document.querySelectorAll("label")].find((one) => one.textContent?.startsWith(label));
  const input = document.getElementById(field?.htmlFor ?? "") as HTMLInputElement;
  input.value = text;
  input.dispatchEvent(new Event("input", { bubbles: true }));
  await settle();
}

beforeEach(async () => {
  const { first, second } = await holdingAt(30);
  const brooder = (await record("place", { name: "Brooder one", role: "brooder" })).id;
  lots = { first, second, place: brooder };
  for (const id of [first, second]) {
    await record("moved", { moves: [{ lot: id, from: "set", to: "hatched", n: 4 }], why: "hatch" });
    await record("moved", { moves: [{ lot: id, from: "hatched", to: "brooding", n: 4 }], place: brooder });
  }
});

describe("weighing", () => {
  it("finds the batch of a chick by its number, in a place that holds two", async () => {
    await record("marked", { lot: lots.second, n: 1, tag: { kind: "wing", text: "104" } });
    show(<WeighBirdsScreen asked={`place:${lots.place}`} />);
    await settle();
    await type("Mark or number", "104");
    expect(document.body.textContent).toContain("On the scales: one of Hazel");
    await type("Weight, g", "212");
    await tap("Next");
    await type("Mark or number", "105");
    expect(document.body.textContent).toContain("No bird here is known by that mark");
    await type("Weight, g", "198,5");
    await tap("Next");
    expect(weighed().map((one) => [one.lot, one.birds?.[0]?.mass_g])).toEqual([
      [lots.second, 212],
      [lots.first, 198.5],
    ]);
  });

  it("takes pounds and ounces, and says what is no weight", async () => {
    await nameKeeper({ ...standing.value.keeper, mass: "oz" });
    show(<WeighBirdsScreen asked={`lot:${lots.first}`} />);
    await settle();
    await tap("Next");
    expect(document.body.textContent).toContain("Type the weight first.");
    await type("Weight, oz", "heavy");
    expect(document.body.textContent).toContain("This is no weight");
    await type("Weight, oz", "1 lb 2.5");
    await tap("Next");
    expect(weighed()[0]?.birds).toEqual([{ mass_g: 524 }]);
    expect(document.body.textContent).toContain("1 lb 2.5 oz");
  });

  it("weighs a bird that was picked, in its own batch and sex", async () => {
    await keepChicks(lot(lots.first), [{ sex: "male", name: "Tam" }], "2026-03-10");
    show(<WeighBirdsScreen asked={`lot:${lots.first}`} />);
    await settle();
    await tap("Tam");
    await type("Weight, g", "300");
    await tap("Next");
    const bird = standing.value.heads.bird?.[0]?.root;
    expect(weighed()).toMatchObject([{ lot: lots.first, sex: "male", birds: [{ bird, mass_g: 300 }] }]);
  });
});

describe("choosing", () => {
  it("keeps from those off heat first, whole or not at all", async () => {
    await record("moved", { moves: [{ lot: lots.first, from: "brooding", to: "growing", n: 1 }] });
    expect([mayKeep(lot(lots.first)), mayGo(lot(lots.first))]).toEqual([4, 4]);
    await keepChicks(lot(lots.first), [{ sex: "female" }, { sex: "unknown" }], "2026-03-10");
    expect(stages(lots.first)).toMatchObject({ brooding: 2, flock: 2 });
    expect(standing.value.heads.bird?.map(({ body }) => body)).toMatchObject([
      { sex: "female", hatched_on: "2026-03-10", lots: [{ lot: lots.first, share: 1 }] },
      { sex: "unknown", hatched_on: "2026-03-10", lots: [{ lot: lots.first, share: 1 }] },
    ]);
  });

  it("more than there are stay in the book as a problem", async () => {
    await chicksGo(lot(lots.first), 6, "parted", { who: "A. Reed" });
    expect(stages(lots.first)).toMatchObject({ parted: 6, growing: -2 });
    expect(standing.value.problems.map(({ code }) => code)).toContain("below_zero");
  });
});

describe("chicks with rings of their own before they are chosen", () => {
  /** Three of four are written down as birds while the batch still counts four. */
  const ringed = async () => {
    for (const text of ["1", "2", "3"])
      await record("bird", { sex: "female", lots: [{ lot: lots.first }], tags: [{ kind: "ring", text }] });
  };

  it("are one head each, wherever they are counted", async () => {
    await ringed();
    show(<ChooseScreen id={lots.first} />);
    await settle();
    expect(document.querySelector("h1")?.textContent).toBe("Rowan: 1 chick to choose from");
    expect(document.body.textContent).toContain(
      "3 kept so far.3 of those kept are still counted among the chicks of this batch as well.",
    );
    show(<BirdsScreen />);
    await settle();
    expect(document.body.textContent).toContain("Rowan: 1 chick");
    show(<WeighBirdsScreen asked={`lot:${lots.first}`} />);
    await settle();
    expect(document.querySelector("h1")?.textContent).toMatch(/^Rowan, 4 chicks, hatched /);
  });

  it("leave their batch in one tap, and nobody is asked about them again", async () => {
    await ringed();
    show(<ChooseScreen id={lots.first} />);
    await settle();
    await tap("Count all 3 as kept only");
    expect(stages(lots.first)).toMatchObject({ brooding: 1, flock: 3 });
    expect(document.querySelector("h1")?.textContent).toBe("Rowan: 1 chick to choose from");
    expect(document.body.textContent).not.toContain("of those kept");
    expect(standing.value.heads.bird).toHaveLength(3);
  });

  it("are no more than the chicks of the batch, and none once they were kept in the usual way", async () => {
    await keepChicks(lot(lots.first), [{ sex: "female" }, { sex: "male" }], "2026-03-10");
    expect(namedYoung(standing.value, lot(lots.first))).toBe(0);
    for (const text of ["1", "2", "3"])
      await record("bird", { sex: "male", lots: [{ lot: lots.first }], tags: [{ kind: "ring", text }] });
    expect(namedYoung(standing.value, lot(lots.first))).toBe(2);
  });
});

describe("whom to weigh", () => {
  it("offers the youngest batch first, and names the year of an older one", async () => {
    await record("bird", { sex: "male", lots: [{ lot: lots.second }], tags: [{ kind: "ring", text: "9" }] });
    await record("came", {
      lot: "01a00000-0000-7000-8000-00000000c0de",
      n: 2,
      stage: "growing",
      on: "2026-03-05",
      how: "bought",
      from: "Fen End",
      hatched_on: "2024-03-01",
    });
    const texts = scopesOf(standing.value, [], "2026-03-31").map(({ text }) => text);
    expect(texts.slice(0, 2).every((text) => / 4 chicks, /.test(text) || / 3 chicks, /.test(text))).toBe(
      true,
    );
    expect(texts[2]).toMatch(/2 chicks, hatched 0?1 Mar 2024|2 chicks, hatched Mar 1, 2024/);
  });
});
