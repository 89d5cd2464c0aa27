// @vitest-environment happy-dom
import { afterAll, afterEach, describe, expect, it } from "vitest";
import { MarkScreen } from "../../../pwa/src/screens/mark.tsx";
import { MarkAgainScreen } from "../../../pwa/src/screens/mark-again.tsx";
import { record } from "../../../pwa/src/state/actions.ts";
import { choose } from "../../../pwa/src/state/choices.ts";
import { addPlace } from "../../../pwa/src/state/holding.ts";
import { standing } from "../../../pwa/src/state/standing.ts";
import { killApp } from "../state/surroundings.ts";
import { holdingAt, settle, show, tap } from "./holding.ts";

afterEach(() => choose("webs", "unasked"));
afterAll(killApp);

const page = () => document.body.textContent ?? "";
const buttons = () =>
  [...document.querySelectorAll("button")].map((one) => one.getAttribute("aria-label") ?? one.textContent);

/** Rowan hatched 6, Hazel 3, all in one brooder. */
async function hatched() {
  const holding = await holdingAt(22);
  const brooder = (await addPlace({ name: "Brooder one", role: "brooder" })).id;
  for (const [lot, n] of [
    [holding.first, 6],
    [holding.second, 3],
  ] as const) {
    await record("moved", { moves: [{ lot, from: "set", to: "hatched", n }], why: "hatch" });
    await record("moved", { moves: [{ lot, from: "hatched", to: "brooding", n }], place: brooder });
  }
  return { ...holding, brooder };
}

const given = () => (standing.value.heads.marked ?? []).map(({ body }) => body);
/** What was written since `before` of the marks, without the batch. */
const since = (before: number) =>
  given()
    .slice(before)
    .map(({ lot: _, ...body }) => body);

describe("a later look at marks", () => {
  it("asks about every pattern that the chicks of a batch wear, and writes what was found of each", async () => {
    const { first } = await hatched();
    await record("marked", { lot: first, webs: ["LO"], n: 4 });
    await record("marked", { lot: first, webs: ["LO", "RI"], n: 2 });
    show(<MarkAgainScreen id={first} />);
    await settle();
    expect(page()).toContain("4 wear left outer");
    expect(page()).toContain("2 wear left outer and right inner");
    await tap("1 punched again: left outer and right inner");
    expect(since(2)).toEqual([{ webs: ["LO", "RI"], n: 1, recheck: true }]);
    await tap("All are open");
    expect(since(3)).toEqual([
      { webs: ["LO"], recheck: true },
      { webs: ["LO", "RI"], recheck: true },
    ]);
  });

  it("has holes that closed punched again, as many as wear the pattern at most", async () => {
    const { first } = await hatched();
    await record("marked", { lot: first, webs: ["RO"], n: 2 });
    show(<MarkAgainScreen id={first} />);
    await settle();
    expect(page()).toContain("Closed and punched again");
    expect(page()).not.toContain("wear right outer");
    for (let taps = 0; taps < 3; taps += 1) await tap("One more");
    await tap("2 web marks punched again");
    expect(since(1)).toEqual([{ webs: ["RO"], n: 2, recheck: true }]);
    expect(page()).toContain("Last looked at");
  });

  it("changes each kind of ring for larger ones, for as many chicks as wore it, and asks of the new ones", async () => {
    const { first } = await hatched();
    const ring = (colour: string, leg: "left" | "right", more = {}) =>
      record("marked", { lot: first, tag: { kind: "ring", colour, leg, ...more }, n: 1 });
    await ring("blue", "left", { text: "7" });
    await ring("blue", "left", { text: "8" });
    await ring("red", "right");
    await ring("blue", "right");
    show(<MarkAgainScreen id={first} />);
    await settle();
    expect(page()).toContain("2 wear blue ring, left leg");
    expect(page()).toContain("1 wears red ring, right leg");
    expect(page()).toContain("1 wears blue ring, right leg"); // by the leg alone another kind
    const olds = (standing.value.heads.marked ?? []).map(({ id }) => id);
    await tap("Changed for larger rings: blue ring, left leg");
    expect(since(4)).toEqual(
      ["7", "8"].map((text, at) => ({
        tag: { kind: "ring", colour: "blue", leg: "left", text },
        n: 1,
        replaces: olds[at],
      })),
    );
    expect(page()).toContain("2 wear blue ring, left leg");
    await new Promise((done) => setTimeout(done, 520)); // sooner it is the rest of a double tap
    await tap("Changed for larger rings: blue ring, left leg");
    const news = (standing.value.heads.marked ?? []).slice(4, 6).map(({ id }) => id);
    expect(since(6).map(({ replaces }) => replaces)).toEqual(news);
    expect(page()).toContain("2 wear blue ring, left leg");
    await tap("Changed for larger rings: blue ring, right leg");
    expect(since(8)).toEqual([
      { tag: { kind: "ring", colour: "blue", leg: "right" }, n: 1, replaces: olds[3] },
    ]);
  });

  it("speaks of the one ring of a batch without naming it twice", async () => {
    const { first } = await hatched();
    await record("marked", { lot: first, tag: { kind: "ring", colour: "blue", leg: "left" } });
    show(<MarkAgainScreen id={first} />);
    await settle();
    await tap("Changed for larger rings");
    expect(buttons()).toContain("Changed for larger rings");
    expect(since(1)).toMatchObject([{ tag: { colour: "blue" }, replaces: expect.any(String) }]);
    expect(since(1)[0]).not.toHaveProperty("n");
  });
});

describe("marking", () => {
  it("says before it is written that another batch shares the brooder and wears the same", async () => {
    const { first, second } = await hatched();
    choose("webs", "yes");
    await record("marked", { lot: first, webs: ["LO"] });
    show(<MarkScreen id={second} />);
    await settle();
    await tap("Left outer web");
    await tap("Mark 3 chicks");
    expect(page()).toContain(
      "Rowan shares Brooder one and wears the same. Give these another mark before they mix.",
    );
    await tap("Change it");
    await tap("Left inner web");
    await tap("Mark 3 chicks");
    expect(page()).not.toContain("wears the same");
  });

  it("puts a wing tag on one chick, by its number", async () => {
    const { second } = await hatched();
    choose("webs", "no");
    show(<MarkScreen id={second} />);
    await settle();
    await tap("Wing tag");
    const field = [...document.querySelectorAll("input")].find(({ type }) => type === "text");
    if (!field) throw new Error("no field for the number");
    field.value = "104";
    field.dispatchEvent(new Event("input", { bubbles: true }));
    await settle();
    expect(page()).toContain("A number is for one bird: one is marked at a time.");
    await tap("Mark 1 chick");
    expect(page()).toContain("One Hazel chick: wing tag, 104");
    await tap("Yes, 1 Hazel marked");
    expect(since(0)).toEqual([{ tag: { kind: "wing", text: "104" }, n: 1 }]);
    expect(page()).toContain("Hazel: 2 of 3 chicks still to mark");
  });
});
