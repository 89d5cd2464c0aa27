// @vitest-environment happy-dom
import { describe, expect, it } from "vitest";
import { storyLines, tellEntries } from "../../../pwa/src/screens/story.ts";
import { record, undo } from "../../../pwa/src/state/actions.ts";
import { entries, standing } from "../../../pwa/src/state/standing.ts";
import { lookLive, openEgg, take } from "../../../pwa/src/state/tally.ts";
import { NOW_MS } from "../state/surroundings.ts";
import { holdingAt } from "./holding.ts";

const story = () => storyLines(tellEntries(entries.value, standing.value.rootOf), standing.value);

describe("the book as lines", () => {
  it("draws the taps of one tally together, family by family", async () => {
    const { setting, first, second } = await holdingAt(7);
    for (let tap = 0; tap < 8; tap += 1) await lookLive({ setting, lot: first, day: 7 });
    await take({ lot: first, to: "clear", day: 7, why: "candled" });
    await take({ lot: second, to: "quitter", day: 7, why: "candled" });
    const line = story().find((one) => one.told.some(({ entry }) => entry.kind === "looked"));
    expect(line?.heading).toBe("Candling, Loft box");
    expect(line?.told).toHaveLength(10);
    expect(line?.parts).toEqual(["Rowan: 8 live, 1 clear", "Hazel: 1 dead in shell"]);
  });

  it("keeps acts apart that were half an hour or more from each other", async () => {
    const { first } = await holdingAt(7);
    const at = (minutes: number) => ({ at: new Date(NOW_MS - minutes * 60_000) });
    const moved = (n: number) => ({
      moves: [{ lot: first, from: "set", to: "clear", n }],
      why: "candled" as const,
    });
    await record("moved", moved(1), at(90));
    await record("moved", moved(2), at(61));
    await record("moved", moved(3), at(5));
    expect(
      story()
        .filter((line) => line.heading.startsWith("Candling"))
        .map((line) => line.parts),
    ).toEqual([["Rowan: 3 clear"], ["Rowan: 3 clear"]]);
  });

  it("tells an egg that passed through two stages by where it ended", async () => {
    const { first } = await holdingAt(23);
    await openEgg({ lot: first, to: "dead_late", day: 23 });
    expect(story()[0]?.parts).toEqual(["Rowan: 1 died late"]);
  });

  it("shows one line for an entry and its corrections, marked when it was taken back", async () => {
    const { first } = await holdingAt(7);
    const { id } = await take({ lot: first, to: "clear", day: 7, why: "candled" });
    const before = tellEntries(entries.value, standing.value.rootOf).length;
    await undo(id);
    const told = tellEntries(entries.value, standing.value.rootOf);
    expect(told).toHaveLength(before);
    expect(told.find((one) => one.root === id)?.back).toBe(true);
  });

  it("counts a photo to the setting it is about or its batch is of, and to none where it is about something else", async () => {
    const { setting, first } = await holdingAt(7);
    const photo = { sha256: "a".repeat(64), type: "image/jpeg", width: 3, height: 4 };
    await record("photo", { ...photo, about: setting });
    await record("photo", { ...photo, about: first });
    await record("photo", photo);
    const lines = story().filter((line) => line.heading === "A photo");
    expect(lines.map((line) => line.setting).sort()).toEqual([setting, setting, null].sort());
  });

  it("tells whose eggs were gathered and left, and how chicks were marked", async () => {
    const { rowan, first } = await holdingAt(22);
    const on = "2026-03-01";
    await record("gathered", { family: rowan, on, n: 5, kept: 4 });
    await record("gathered", { family: rowan, on, n: 3, kept: 3 });
    await record("eggs_out", { family: rowan, on, n: 2, how: "eaten" });
    await record("marked", { lot: first, n: 4, webs: ["LO", "RI"] });
    await record("marked", { lot: first, tag: { kind: "ring", colour: "blue", leg: "left" } });
    await record("marked", { lot: first, webs: ["LO", "RI"], recheck: true, n: 1 });
    const headings = story().map((line) => line.heading);
    for (const told of [
      "Rowan: 5 eggs gathered, 4 kept",
      "Rowan: 3 eggs gathered",
      "Rowan: 2 eggs eaten",
      "Rowan: 4 marked, left outer and right inner",
      "Rowan: all marked, blue ring, left leg",
      "Rowan: marks looked at, 1 punched again",
      "Family Rowan, Sussex",
    ])
      expect(headings).toContain(told);
  });
});
