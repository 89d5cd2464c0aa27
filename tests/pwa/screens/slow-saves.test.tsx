// @vitest-environment happy-dom
// A phone whose disk is slow or full: each form closes or says what it wrote at the tap, and one tap writes once.
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { BroodBatchScreen } from "../../../pwa/src/screens/brood-batch.tsx";
import { BroodMoveScreen } from "../../../pwa/src/screens/brood-move.tsx";
import { CameScreen } from "../../../pwa/src/screens/came.tsx";
import { ChooseScreen } from "../../../pwa/src/screens/choose.tsx";
import { EggsScreen } from "../../../pwa/src/screens/eggs.tsx";
import { TallyScreen } from "../../../pwa/src/screens/tally.tsx";
import { record } from "../../../pwa/src/state/actions.ts";
import { choose } from "../../../pwa/src/state/choices.ts";
import { openDesk } from "../../../pwa/src/state/desk.ts";
import { held } from "../../../pwa/src/state/held.ts";
import { addPlace } from "../../../pwa/src/state/holding.ts";
import { standing } from "../../../pwa/src/state/standing.ts";
import { killApp, NOW_MS } from "../state/surroundings.ts";
import { holdingAt, settle, show, stages, tap } from "./holding.ts";

const DAY_MS = 86_400_000;
const text = () => document.body.textContent ?? "";
const written = (kind: string) =>
  [...held.value.entries.values()].filter((one) => one.entry.kind === kind && !one.entry.void).length;

let holding: Awaited<ReturnType<typeof holdingAt>>;
let brooder = "";

/** Rowan hatched 7 two days ago; they are in a brooder. From now on nothing becomes durable. */
beforeEach(async () => {
  choose("keepAwake", "no");
  await import("../../../pwa/src/screens/tally-panel.tsx");
  holding = await holdingAt(23);
  brooder = (await addPlace({ name: "Brooder one", role: "brooder" })).id;
  await addPlace({ name: "Brooder two", role: "brooder" });
  const moved = (from: string, to: string, days: number) =>
    record(
      "moved",
      { moves: [{ lot: holding.first, from, to, n: 7 }], ...(to === "brooding" ? { place: brooder } : {}) },
      { at: new Date(NOW_MS - days * DAY_MS) },
    );
  await moved("set", "hatched", 2);
  await moved("hatched", "brooding", 1.5);
});
afterAll(killApp);

function stopSaving() {
  openDesk().storage.append = () => new Promise(() => undefined);
}

/** Two taps, the second after the first was drawn; on a button of the same name or on what took its place. */
async function tapTwice(name: string) {
  const found = [...document.querySelectorAll<HTMLElement>("button")].find((one) =>
    (one.getAttribute("aria-label") ?? one.textContent ?? "").trim().startsWith(name),
  );
  if (!found) throw new Error(`there is no "${name}" on the screen: ${text()}`);
  found.click();
  await settle();
  if (found.isConnected) found.click();
  await settle();
}

describe("while nothing can be saved", () => {
  it("a loss is written once, said, and taken back", async () => {
    show(<BroodBatchScreen id={holding.first} />);
    await settle();
    await tap("Dead");
    stopSaving();
    await tapTwice("Write down: 1");
    expect([stages(holding.first).died, written("moved")]).toEqual([1, 3]);
    expect(document.querySelector(".done-line")?.textContent).toContain("1 Rowan died");
    await tap("Undo: 1 Rowan died");
    expect(stages(holding.first).died ?? 0).toBe(0);
  });

  it("a count by hand is written once, and can be settled", async () => {
    show(<TallyScreen id={holding.setting} what="candle" />);
    await settle();
    await tap("Something else");
    await tap("Count again");
    await tap("One fewer");
    stopSaving();
    await tapTwice("That is the count");
    expect(written("counted")).toBe(1);
    await tapTwice("1 egg cracked");
    const settled = standing.value.heads.moved?.filter(({ body }) => body.settles);
    expect(settled?.map(({ body }) => body.settles)).toEqual([standing.value.heads.counted?.[0]?.id]);
  });

  it("chicks that are culled or kept are written once, and said", async () => {
    show(<ChooseScreen id={holding.first} />);
    await settle();
    await tap("Cull");
    await tap("One more");
    await tap("One more");
    stopSaving();
    await tapTwice("3 culled");
    expect(stages(holding.first).culled).toBe(3);
    expect(text()).toContain("3 written down");
    await tap("Keep");
    await tapTwice("Keep 1 hen");
    expect([stages(holding.first).flock, written("bird")]).toEqual([1, 1]);
    expect(text()).toContain("1 bird kept");
  });

  it("young that move are written once, and said", async () => {
    show(<BroodMoveScreen id={brooder} />);
    await settle();
    for (let n = 0; n < 4; n += 1) await tap("One fewer");
    stopSaving();
    const before = written("moved");
    await tapTwice("Move 3");
    expect(written("moved")).toBe(before + 1);
    expect(text()).toContain("3 now in Brooder two");
  });

  it("a bird that came is written once, and said", async () => {
    show(<CameScreen />);
    await settle();
    stopSaving();
    await tapTwice("Write");
    expect([written("bird"), written("came")]).toEqual([1, 1]);
    expect(text()).toContain("Written down.");
  });

  it("missing chicks are found one by one, each tap one, and each can be taken back", async () => {
    const lost = { lot: holding.first, from: "brooding", to: "unaccounted", n: 3 };
    await record("moved", { moves: [lost], why: "lost" });
    show(<BroodBatchScreen id={holding.first} />);
    await settle();
    stopSaving();
    await tapTwice("Found again");
    expect(stages(holding.first).unaccounted).toBe(1);
    await tap("Undo: ");
    await tap("Undo: ");
    expect(stages(holding.first).unaccounted).toBe(3);
  });

  it("eggs that were gathered are written once, and said", async () => {
    show(<EggsScreen />);
    await settle();
    await tap("Eggs gathered");
    await tap("One more");
    stopSaving();
    await tapTwice("Save 1 egg");
    expect(written("gathered")).toBe(1);
    expect(text()).toContain("1 egg gathered");
  });
});
