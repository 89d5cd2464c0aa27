// @vitest-environment happy-dom
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { broods } from "../../../pwa/src/book/whereabouts.ts";
import { BroodBatchScreen } from "../../../pwa/src/screens/brood-batch.tsx";
import { BroodMoveScreen } from "../../../pwa/src/screens/brood-move.tsx";
import { BroodPlaceScreen } from "../../../pwa/src/screens/brood-place.tsx";
import { BroodsScreen } from "../../../pwa/src/screens/broods.tsx";
import { record } from "../../../pwa/src/state/actions.ts";
import { addPlace, nameFamily } from "../../../pwa/src/state/holding.ts";
import { standing } from "../../../pwa/src/state/standing.ts";
import { killApp, NOW_MS } from "../state/surroundings.ts";
import { holdingAt, settle, show, tap } from "./holding.ts";

const DAY_MS = 86_400_000;
const text = () => document.body.textContent ?? "";
const title = () => document.querySelector("h1")?.textContent;

afterAll(killApp);

/** Rowan hatched 7, Hazel 4, two days ago, in the machine they were set in. */
async function hatched() {
  const holding = await holdingAt(23);
  const at = new Date(NOW_MS - 2 * DAY_MS);
  const out = (lot: string, n: number) =>
    record("moved", { moves: [{ lot, from: "set", to: "hatched", n }], why: "hatch" }, { at });
  await out(holding.first, 7);
  await out(holding.second, 4);
  const brooder = (await addPlace({ name: "Brooder one", role: "brooder" })).id;
  return { ...holding, brooder };
}

const held = () =>
  broods(standing.value).map(({ place, n, stages }) => [place, n, [...stages.keys()].join()]);

describe("chicks move house", () => {
  let holding: Awaited<ReturnType<typeof hatched>>;
  beforeEach(async () => {
    holding = await hatched();
  });

  it("says whom marks will not tell apart, and moves them all the same", async () => {
    show(<BroodMoveScreen id={holding.place} />);
    await settle();
    expect(title()).toBe("Move 11 chicks");
    expect(text()).toContain("Rowan and Hazel will be together, and their marks do not tell them apart.");
    await tap("Move 11 to Brooder one");
    await settle();
    expect(held()).toEqual([
      [holding.brooder, 7, "brooding"],
      [holding.brooder, 4, "brooding"],
    ]);
    expect(title()).toBe("Nobody is left to move here.");
    await tap("Undo");
    await settle();
    expect(title()).toBe("Move 11 chicks");
  });

  it("shows, moves and loses chicks of unknown family as those they are", async () => {
    const among = [holding.first, holding.second];
    const at = new Date(NOW_MS - 2 * DAY_MS);
    await record("moved", { moves: [{ among, from: "set", to: "hatched", n: 5 }], why: "hatch" }, { at });
    show(<BroodMoveScreen id={holding.place} />);
    await settle();
    expect(title()).toBe("Move 16 chicks");
    expect(text()).toContain("Family not known (Rowan / Hazel), 5 chicks");
    await tap("Move 16 to Brooder one");
    await settle();
    expect(held().map(([place, n]) => [place, n])).toEqual([
      [holding.brooder, 7],
      [holding.brooder, 4],
      [holding.brooder, 5],
    ]);
    show(<BroodPlaceScreen id={holding.brooder} />);
    await settle();
    expect(title()).toContain("16 chicks, 2 days old");
    const rows = [...document.querySelectorAll(".lines > li")].map((row) => row.textContent);
    expect(rows).toContain("Family not known (Rowan / Hazel)5 chicks, 2 days old");
    await tap("Dead");
    const whose = [...document.querySelectorAll("select")].find(({ textContent }) =>
      textContent?.includes("Family not known (Rowan / Hazel), 5"),
    );
    if (whose) whose.value = "2";
    whose?.dispatchEvent(new Event("change", { bubbles: true }));
    await settle();
    await tap("Write down: 1 Family not known (Rowan / Hazel) died");
    await settle();
    expect(held().map(([, n]) => n)).toEqual([7, 4, 4]);
  });

  it("has a page for a batch of which no chick is known, and says where those are that may be of it", async () => {
    const { first, second, place } = await holdingAt(23);
    const write = (from: string, to: string, n: number) =>
      record("moved", { moves: [{ among: [first, second], from, to, n }] });
    const open = async (id: string) => {
      show(<BroodBatchScreen key={`${id} ${text().length}`} id={id} />);
      await settle();
      return [title(), ...[...document.querySelectorAll(".lines > li")].map((row) => row.textContent)];
    };
    expect(await open(first)).toEqual(["These chicks are not in the book of this phone"]);
    await write("set", "hatched", 5);
    for (const [id, name] of [
      [first, "Rowan"],
      [second, "Hazel"],
    ] as const)
      expect(await open(id)).toEqual([`${name}: none is known to be of it, 5 chicks may be`, "Loft box5"]);
    expect(text()).toContain("Nobody wrote of which of Rowan and Hazel they hatched.");
    expect(document.querySelector(`a[href="/broods/${place}"]`)).not.toBeNull();
    await write("hatched", "died", 5);
    expect(await open(first)).toEqual(["Rowan: none is known to be of it, 5 chicks may be"]);
    expect(text()).toContain("None is left.");
    await record("moved", { moves: [{ lot: first, from: "set", to: "hatched", n: 2 }] });
    expect((await open(first))[0]).toContain("Rowan: 0 to 2 of 2 alive");
  });

  it("says nothing where marks differ, and moves some only", async () => {
    await record("marked", { lot: holding.first, webs: ["LO", "LI"] });
    await record("marked", { lot: holding.second, webs: ["RO", "LI"] });
    show(<BroodMoveScreen id={holding.place} />);
    await settle();
    expect(text()).not.toContain("do not tell them apart");
    await tap("One fewer");
    await tap("Move 10 to Brooder one");
    await settle();
    expect(title()).toBe("Move 1 chick");
    expect(held().map(([, n]) => n)).toEqual(expect.arrayContaining([1, 6, 4]));
  });

  it("takes chicks off heat by way of the brooder, in one act that undo takes back whole", async () => {
    await addPlace({ name: "Orchard", role: "pen" });
    show(<BroodMoveScreen id={holding.place} />);
    await settle();
    const select = document.querySelector("select");
    if (!select) throw new Error("no choice of places");
    const pen = [...select.options].find((option) => option.text === "Orchard")?.value ?? "";
    select.value = pen;
    select.dispatchEvent(new Event("change", { bubbles: true }));
    await settle();
    await tap("Move 11 to Orchard");
    await settle();
    expect(held()).toEqual([
      [pen, 7, "growing"],
      [pen, 4, "growing"],
    ]);
    expect(standing.value.problems.map(({ code }) => code)).toEqual([]);
    await tap("Undo");
    await settle();
    expect(held().every(([, , stages]) => stages === "hatched")).toBe(true);
  });

  it("puts chicks under a hen, who is the heat, and asks nothing of a lamp", async () => {
    const hen = (await addPlace({ name: "Speckled hen", role: "hen" })).id;
    show(<BroodMoveScreen id={holding.place} />);
    await settle();
    const select = document.querySelector("select");
    if (!select) throw new Error("no choice of places");
    select.value = hen;
    select.dispatchEvent(new Event("change", { bubbles: true }));
    await settle();
    await tap("Move 11 to Speckled hen");
    await settle();
    expect(held()).toEqual([
      [hen, 7, "brooding"],
      [hen, 4, "brooding"],
    ]);
    show(<BroodPlaceScreen id={hen} />);
    await settle();
    expect(title()).toBe("11 chicks, 2 days old");
    expect(text()).toContain("She is the heat.");
    expect(text()).not.toContain("What do they look like?");
    expect(text()).not.toContain("Lower the heat");
  });

  it("keeps quail under heat between the first week and the end, by how they lie", async () => {
    const family = (await nameFamily({ name: "Gorse", species: "coturnix", breed: "Italian" })).id;
    const quail = { lot: "0199aaaa-0000-7000-9000-000000000002", n: 8, family, how: "bought" } as const;
    const on = (daysAgo: number) => new Date(NOW_MS - daysAgo * DAY_MS).toISOString().slice(0, 10);
    await record("came", { ...quail, on: on(10), hatched_on: on(11) });
    await record("moved", {
      moves: [{ lot: quail.lot, from: "brooding", to: "brooding", n: 8 }],
      place: holding.brooder,
    });
    show(<BroodPlaceScreen id={holding.brooder} />);
    await settle();
    expect(title()).toMatch(/^8 chicks, \d+ days old: heat on, as the chicks lie$/);
    expect(text()).toContain("Heat on, and as much as the chicks say: no figure was read for this age.");
    expect(text()).toMatch(/Heat commonly ends between .+ and .+; that is from memory/);
    expect(text()).not.toContain("No heat is asked for");
    expect(text()).toContain("What do they look like?");
  });

  it("warns of several ages in one place, on the page of the place", async () => {
    const older = {
      lot: "0199aaaa-0000-7000-9000-000000000001",
      n: 5,
      family: holding.hazel,
      how: "bought",
    } as const;
    await record("came", { ...older, on: "2026-02-20", hatched_on: "2026-02-10" });
    await record("moved", {
      moves: [{ lot: older.lot, from: "brooding", to: "brooding", n: 5 }],
      place: holding.brooder,
    });
    await record("moved", {
      moves: [{ lot: holding.first, from: "hatched", to: "brooding", n: 7 }],
      place: holding.brooder,
    });
    show(<BroodPlaceScreen id={holding.brooder} />);
    await settle();
    expect(title()).toMatch(/^12 chicks, 2 and \d+ days old: 32 to 35 °C$/);
    expect(text()).toContain("Chicks a week or more apart in age are together.");
    const behind = [...document.querySelectorAll("p.quiet.small")].map((one) => one.textContent ?? "");
    const about = (kinds: string) => behind.filter((one) => one.includes(kinds)).at(-1) ?? "";
    expect(about("(white-egg layers and brown-egg layers)")).toMatch(/^One source: .*All of this rests on/);
    expect(about("(meat pullets and meat cockerels)"), "read on a copy").toMatch(
      /^One source: .*\)\. Shown 10 %[^.]*judgement\. $/,
    );
    expect(about("Water a day: ")).toMatch(/^Water a day: The sources differ: .*Part of this rests on/);
    for (const said of [
      "1 to 2 mm",
      "42 to 56 day from starter",
      "1.3 to 1.5 times as much water",
      "126 day before which",
    ])
      expect(about(said), "its source, and how far it can be trusted").toMatch(/, .+/);
    expect(about("1 to 2 mm")).toContain("not yet checked against its source");
    show(<BroodsScreen />);
    await settle();
    expect(title()).toBe("16 chicks in 2 places");
    show(<BroodBatchScreen id={holding.first} />);
    await settle();
    expect(title()).toBe("Rowan: 7 of 7 alive, 2 days old");
  });
});

describe("not asked for these birds", () => {
  it("says so of the batch it was said of, and neither of the next one nor of its dust bath", async () => {
    const { first, second, brooder } = await hatched();
    const ago = (days: number) => ({ at: new Date(NOW_MS - days * DAY_MS) });
    const bring = (lot: string, from: string, to: string, n: number, days: number) =>
      record("moved", { moves: [{ lot, from, to, n }], place: brooder }, ago(days));
    await bring(first, "hatched", "growing", 7, 1.9);
    for (const task of ["drinkers", "dust_bath"])
      await record("care", { task, place: brooder, on: "2026-09-01" }, ago(1.8));
    await record("care", { task: "dust_bath", place: brooder, on: "2026-03-05" }, ago(3));
    show(<BroodPlaceScreen id={brooder} />);
    await settle();
    expect(text()).toContain("Not asked for now");
    expect(text()).not.toContain("They have a dust bath");
    const sold = [{ lot: first, from: "growing", to: "parted", n: 7 }];
    await record("moved", { moves: sold, why: "left" }, ago(1.5));
    await bring(second, "hatched", "growing", 4, 1);
    await settle();
    expect(text()).not.toContain("Not asked for now");
    expect(text()).toContain("Done: Clean the drinkers");
    expect(text()).toContain("They have a dust bath");
  });
});
