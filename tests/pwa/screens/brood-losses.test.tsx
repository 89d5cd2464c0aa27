// @vitest-environment happy-dom
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import type { Lot } from "../../../pwa/src/book/standing.ts";
import { broodsOf } from "../../../pwa/src/book/whereabouts.ts";
import { BroodBatchScreen } from "../../../pwa/src/screens/brood-batch.tsx";
import { BroodPlaceScreen } from "../../../pwa/src/screens/brood-place.tsx";
import { BroodsScreen } from "../../../pwa/src/screens/broods.tsx";
import { record } from "../../../pwa/src/state/actions.ts";
import { addPlace } from "../../../pwa/src/state/holding.ts";
import { standing } from "../../../pwa/src/state/standing.ts";
import { killApp, NOW_MS } from "../state/surroundings.ts";
import { holdingAt, settle, show, stages, tap } from "./holding.ts";

const DAY_MS = 86_400_000;
const text = () => document.body.textContent ?? "";

afterAll(killApp);

/** Rowan hatched 7 and Hazel 4 nine days ago, and are in one brooder since then. */
async function brooded() {
  const holding = await holdingAt(30);
  const brooder = (await addPlace({ name: "Brooder one", role: "brooder" })).id;
  for (const [lot, n] of [
    [holding.first, 7],
    [holding.second, 4],
  ] as const) {
    const at = (hours: number) => ({ at: new Date(NOW_MS - 9 * DAY_MS + hours * 3_600_000) });
    await record("moved", { moves: [{ lot, from: "set", to: "hatched", n }], why: "hatch" }, at(0));
    const moves = [{ lot, from: "hatched", to: "brooding", n }];
    await record("moved", { moves, why: "pulled", place: brooder }, at(12));
  }
  return { ...holding, brooder };
}

function choose(label: string, option: string) {
  const field = [...document.querySelectorAll("label")].find((one) => one.textContent === label);
  const select = document.getElementById(field?.htmlFor ?? "") as HTMLSelectElement | null;
  const wanted = [...(select?.options ?? [])].find((one) => one.text.startsWith(option));
  if (!select || !wanted) throw new Error(`no ${label}: ${option}`);
  select.value = wanted.value;
  select.dispatchEvent(new Event("change", { bubbles: true }));
}

describe("losses", () => {
  let holding: Awaited<ReturnType<typeof brooded>>;
  beforeEach(async () => {
    holding = await brooded();
  });

  it("are written with whose, how many, why and where, and are taken back in one tap", async () => {
    show(<BroodPlaceScreen id={holding.brooder} />);
    await settle();
    await tap("Dead");
    choose("Whose", "Rowan");
    choose("Why", "Chilled");
    await settle();
    expect(text()).toContain("Several at once by one cause");
    await tap("One more");
    await tap("Write down: 2 Rowan died");
    await settle();
    expect(stages(holding.first)).toMatchObject({ brooding: 5, died: 2 });
    const [last] = (standing.value.heads.moved ?? []).slice(-1);
    expect(last?.body).toMatchObject({ why: "lost", cause: "chilled", place: holding.brooder });
    expect(text(), "one cause took both").not.toContain("died here within a day");
    await tap("Undo: 2 Rowan died.");
    expect(stages(holding.first)).toMatchObject({ brooding: 7 });
  });

  it("say whom to call where two died within a day of no common cause", async () => {
    show(<BroodBatchScreen id={holding.first} />);
    await settle();
    for (let n = 0; n < 2; n += 1) {
      expect(text()).not.toContain("2 chicks died here");
      await tap("Dead");
      await tap("Write down: 1 Rowan died");
      await settle();
    }
    expect(text()).toMatch(/2 chicks died here within a day\. If two or more .*move no bird, call your vet/);
    expect(document.querySelector("h1")?.textContent).toBe("Rowan: 5 of 7 alive, 9 days old");
    expect(text()).toContain("1 died");
  });

  it("of a chick nobody knows the family of count in the hatch, not in a family", async () => {
    show(<BroodPlaceScreen id={holding.brooder} />);
    await settle();
    await tap("Missing");
    await tap("Write down: 1 not known whose missing");
    await settle();
    expect([stages(holding.first), stages(holding.second)]).toMatchObject([{ brooding: 7 }, { brooding: 4 }]);
    expect(standing.value.settings.get(holding.setting)?.stages.get("unaccounted")).toBe(1);
    expect(standing.value.problems).toEqual([]);
  });

  it("of unknown family are shown with each of its batches, in its first week and whom to call", async () => {
    const at = new Date(NOW_MS - 6 * 3_600_000);
    const among = [holding.first, holding.second];
    await record("moved", { moves: [{ among, from: "brooding", to: "died", n: 2 }], why: "lost" }, { at });
    for (const [lot, title, line] of [
      [holding.first, "Rowan: 5 to 7 of 7 alive, 9 days old", "0 of 7 died or went missing."],
      [holding.second, "Hazel: 2 to 4 of 4 alive, 9 days old", "0 of 4 died or went missing."],
    ] as const) {
      show(<BroodBatchScreen id={lot} />);
      await settle();
      expect(document.querySelector("h1")?.textContent).toBe(title);
      expect(text()).toContain("2 died (of Rowan and Hazel, not known whose)");
      expect(text()).not.toContain("Nobody died");
      expect(text()).toContain("2 chicks died here within a day.");
      expect(text()).toContain(line);
      expect(text(), "they died after their first week").not.toContain("Up to 2 more");
      expect(text()).toContain("Rowan and Hazel together: 0 of 11 died or went missing.");
    }
    const earlier = { at: new Date(NOW_MS - 4 * DAY_MS) };
    await record("moved", { moves: [{ among, from: "brooding", to: "died", n: 2 }], why: "lost" }, earlier);
    await settle();
    expect(text()).toContain("Up to 2 more, not known whose.");
    expect(text()).toContain("Rowan and Hazel together: 2 of 11 died or went missing.");
    expect(text(), "two of eleven are more than a flock loses").toContain(
      "Have a dead chick looked at by a vet",
    );
    show(<BroodPlaceScreen id={holding.brooder} />);
    await settle();
    expect(text(), "once, not for each batch").toContain("2 chicks died here within a day.");
  });

  it("of chicks from sight are made good in one tap when they are found", async () => {
    const lost = { from: "brooding", to: "unaccounted", n: 2 };
    const at = (days: number) => ({ at: new Date(NOW_MS - days * DAY_MS) });
    await record("moved", { moves: [{ lot: holding.first, ...lost }], why: "lost" }, at(5));
    show(<BroodBatchScreen id={holding.first} />);
    await settle();
    expect(text()).toContain("2 of 7 died or went missing.");
    await tap("Found again: put 1 back");
    await settle();
    expect(stages(holding.first)).toMatchObject({ brooding: 6, unaccounted: 1 });
    expect(document.querySelector("h1")?.textContent).toBe("Rowan: 6 of 7 alive, 9 days old");
    expect(text()).toContain("1 of 7 died or went missing");
    expect(text()).toContain("1 found again");
    await tap("Undo: 1 found again");
    await settle();
    expect(stages(holding.first)).toMatchObject({ brooding: 5, unaccounted: 2 });
    await tap("Found again: put 1 back");
    await tap("Found again: put 1 back");
    await settle();
    expect(stages(holding.first)).toMatchObject({ brooding: 7 });
    expect(document.body.textContent).not.toContain("put 1 back");
    expect(broodsOf(standing.value, standing.value.lots.get(holding.first) as Lot)).toEqual([
      { lot: holding.first, among: [], place: holding.brooder, n: 7, stages: new Map([["brooding", 7]]) },
    ]);
    const among = { among: [holding.first, holding.second], ...lost, n: 1 };
    await record("moved", { moves: [among], why: "lost" }, at(4));
    await settle();
    expect(document.querySelector("h1")?.textContent).toBe("Rowan: 6 to 7 of 7 alive, 9 days old");
    await tap("Found again, of Rowan and Hazel: put 1 back");
    await settle();
    expect(document.querySelector("h1")?.textContent).toBe("Rowan: 7 of 7 alive, 9 days old");
    expect(standing.value.settings.get(holding.setting)?.stages.get("unaccounted")).toBeUndefined();
    expect(standing.value.problems).toEqual([]);
  });

  it("of birds kept since are no longer alive in their batch", async () => {
    const kept = [{ lot: holding.first, from: "brooding", to: "flock", n: 3 }];
    await record("moved", { moves: kept, why: "brooded" });
    const bird = () => record("bird", { sex: "female", lots: [{ lot: holding.first }] });
    const [sold, dead, lent] = [await bird(), await bird(), await bird()];
    const on = new Date(NOW_MS).toISOString().slice(0, 10);
    await record("left", { bird: sold.id, on, how: "sold" });
    await record("left", { bird: dead.id, on, how: "died" });
    await record("left", { bird: lent.id, on, how: "lent" });
    show(<BroodBatchScreen id={holding.first} />);
    await settle();
    expect(document.querySelector("h1")?.textContent).toBe("Rowan: 5 of 7 alive, 9 days old");
    show(<BroodPlaceScreen id={holding.brooder} />);
    await settle();
    expect(document.querySelector("h1")?.textContent).toContain("8 chicks");
  });

  it("of counts that cannot be have no figures, but the problem with its remedy", async () => {
    const odd = [{ lot: holding.first, from: "hatched", to: "brooding", n: 2 }];
    await record("moved", { moves: odd, why: "pulled" }, { at: new Date(NOW_MS - 8 * DAY_MS) });
    show(<BroodBatchScreen id={holding.first} />);
    await settle();
    expect(document.querySelector("h1")?.textContent).toBe("Rowan: counts that cannot be, 9 days old");
    expect(text()).toContain("Not told: these counts cannot be.");
    expect(text()).not.toMatch(/\d of \d died/);
    const [problem] = standing.value.problems;
    expect(problem?.code).toBe("below_zero");
    expect(text()).toContain(problem?.message);
    expect(text()).toContain(problem?.remedy);
    show(<BroodPlaceScreen id={holding.brooder} />);
    await settle();
    expect(document.querySelector("h1")?.textContent).toBe("Rowan: counts that cannot be, 9 days old");
    expect(text()).toContain(problem?.remedy);
    expect(text(), "nobody knows for how many").not.toContain("Room, feed and water");
    show(<BroodsScreen />);
    await settle();
    expect(document.querySelector("h1")?.textContent).toBe("4 chicks in 2 places");
    expect(text()).toContain("counts that cannot be, 9 days old");
  });

  it("of a batch that cannot be are no figure of the one it is tied to, whose page tells the problem", async () => {
    const at = { at: new Date(NOW_MS - 6 * DAY_MS) };
    const among = [holding.first, holding.second];
    await record("moved", { moves: [{ among, from: "brooding", to: "died", n: 1 }], why: "lost" }, at);
    const six = [{ lot: holding.second, from: "brooding", to: "died", n: 6 }];
    await record("moved", { moves: six, why: "lost" }, at);
    show(<BroodBatchScreen id={holding.first} />);
    await settle();
    expect(document.querySelector("h1")?.textContent).toBe("Rowan: 6 to 7 of 7 alive, 9 days old");
    expect(text()).toContain("Rowan and Hazel together: Not told: these counts cannot be.");
    const [problem] = standing.value.problems;
    expect(problem?.code).toBe("below_zero");
    expect(text()).toContain(problem?.remedy);
  });

  it("of unknown family that are more than there were leave no figure of any", async () => {
    const among = [holding.first, holding.second];
    const all = [{ among, from: "brooding", to: "died", n: 12 }];
    await record("moved", { moves: all, why: "lost" }, { at: new Date(NOW_MS - 6 * DAY_MS) });
    show(<BroodBatchScreen id={holding.first} />);
    await settle();
    expect(document.querySelector("h1")?.textContent).toBe("Rowan: counts that cannot be, 9 days old");
    expect(text()).not.toMatch(/\d of 7 died|Up to/);
    show(<BroodPlaceScreen id={holding.brooder} />);
    await settle();
    expect(text(), "nobody knows for how many").not.toContain("Room, feed and water");
  });

  it("of the first week stand beside the commercial figure, and few are said to be few", async () => {
    const lost = (lot: string, days: number, to: string) =>
      record(
        "moved",
        { moves: [{ lot, from: "brooding", to, n: 1 }], why: "lost" },
        { at: new Date(NOW_MS - days * DAY_MS) },
      );
    await lost(holding.first, 5, "died");
    show(<BroodBatchScreen id={holding.first} />);
    await settle();
    expect(text()).toContain("1 of 7 died or went missing; one death is no pattern.");
    expect(text()).toContain("Commercial flocks: at most 1 % in a first week, at best 0.75.");
    expect(text()).not.toContain("Have a dead chick looked at by a vet");
    await lost(holding.first, 4, "unaccounted");
    await lost(holding.first, 4, "culled");
    await settle();
    expect(text()).toContain("2 of 7 died or went missing.");
    expect(text()).toContain("1 more were culled.");
    expect(text()).toContain("Have a dead chick looked at by a vet");
  });
});
