// The verbs of the counting screen, from a setting to its opening.
import { beforeEach, describe, expect, it } from "vitest";
import { undo } from "../../../pwa/src/state/actions.ts";
import { addPlace, lockDown, nameFamily } from "../../../pwa/src/state/holding.ts";
import { openAtStart } from "../../../pwa/src/state/opening.ts";
import { startSetting } from "../../../pwa/src/state/set-eggs.ts";
import { standing } from "../../../pwa/src/state/standing.ts";
import {
  countAgain,
  countedByHand,
  hatched,
  lookLive,
  lookUnsure,
  openEgg,
  putBack,
  take,
} from "../../../pwa/src/state/tally.ts";
import { browser, killApp, NOW_MS } from "./surroundings.ts";

const stages = (lot: string) => Object.fromEntries(standing.value.lots.get(lot)?.stages ?? []);

function seenOn(lot: string, day: number) {
  const looks = standing.value.lots.get(lot)?.looks.filter((look) => look.day === day) ?? [];
  const sum = (of: "live" | "unsure") => looks.reduce((total, look) => total + look[of], 0);
  return { live: sum("live"), unsure: sum("unsure") };
}

beforeEach(async () => {
  await killApp();
  await openAtStart(browser().around);
});

/** One incubator, two families, 24 and 16 eggs of theirs. */
async function settingOfForty() {
  const box = await addPlace({ name: "Loft box", role: "incubator" });
  const rowan = await nameFamily({ name: "Rowan", species: "chicken", breed: "Marans" });
  const hazel = await nameFamily({ name: "Hazel", species: "chicken", breed: "Marans" });
  const setting = await startSetting({
    place: box.id,
    species: "chicken",
    set_at: new Date(NOW_MS),
    lots: [
      { family: rowan.id, n: 24, sign: "R" },
      { family: hazel.id, n: 16 },
    ],
  });
  const [first = "", second = ""] = standing.value.settings.get(setting.id)?.lots ?? [];
  return { box, setting: setting.id, first, second };
}

describe("a setting from set to opening", () => {
  it("counts as it was tapped, without a problem", async () => {
    const { setting, first, second } = await settingOfForty();
    expect([stages(first), stages(second)]).toEqual([{ set: 24 }, { set: 16 }]);

    for (let i = 0; i < 8; i += 1) await lookLive({ setting, lot: first, day: 7 });
    await take({ lot: first, to: "clear", day: 7, why: "candled" });
    await take({ lot: first, to: "blood_ring", day: 7, why: "candled" });
    await lookUnsure({ setting, lot: first, day: 7 });
    expect(seenOn(first, 7)).toEqual({ live: 8, unsure: 1 });
    await lookLive({ setting, lot: first, day: 7, n: 24 - 2 - 8 - 1 });
    await lookLive({ setting, lot: second, day: 7, n: 16 });
    expect(seenOn(first, 7)).toEqual({ live: 21, unsure: 1 });

    const locked = await lockDown(setting);
    expect(locked.map((entry) => entry.kind)).toEqual(["locked", "moved", "moved"]);
    expect([stages(first), stages(second)]).toEqual([
      { locked: 22, clear: 1, blood_ring: 1 },
      { locked: 16 },
    ]);

    await hatched({ lot: first, day: 21 });
    await hatched({ lot: first, n: 18, day: 21, weak: true });
    await hatched({ lot: second, n: 15, day: 21 });
    await openEgg({ lot: first, to: "dead_late" });
    await openEgg({ lot: first, from: ["clear"], to: "infertile" });
    await openEgg({ lot: second, to: "dead_internal_pip" });
    expect([stages(first), stages(second)]).toEqual([
      { locked: 2, hatched: 19, blood_ring: 1, infertile: 1, dead_late: 1 },
      { hatched: 15, dead_internal_pip: 1 },
    ]);
    expect(standing.value.problems).toEqual([]);
  });

  it("hatches eggs that nobody locked down, and counts on where none is left", async () => {
    const { first } = await settingOfForty();
    await hatched({ lot: first, n: 24 });
    expect(stages(first)).toEqual({ hatched: 24 });
    await hatched({ lot: first }); // one more than there were: kept, and a problem
    expect(stages(first)).toEqual({ hatched: 25, set: -1 });
    expect(standing.value.problems.length).toBeGreaterThan(0);
  });

  it("empties the hatcher first, then what was left behind in the incubator, in one entry", async () => {
    const { first } = await settingOfForty();
    await take({ lot: first, from: ["set"], to: "locked", n: 20 });
    const { body } = await take({ lot: first, to: "unhatched", n: 22, why: "hatch", day: 22 });
    expect(body).toMatchObject({
      moves: [
        { lot: first, from: "locked", to: "unhatched", n: 20 },
        { lot: first, from: "set", to: "unhatched", n: 2 },
      ],
    });
    await openEgg({ lot: first, to: "dead_mid", n: 23, day: 10 });
    expect(stages(first)).toEqual({ set: 1, dead_mid: 23 });
    expect(standing.value.problems).toEqual([]);
  });

  it("puts eggs back with the others, and writes what was seen earlier at its own time", async () => {
    const { setting, first } = await settingOfForty();
    await take({ lot: first, to: "clear", n: 3 });
    await putBack({ lot: first, from: ["clear"], n: 1, into: "set" });
    expect(stages(first)).toEqual({ set: 22, clear: 2 });
    await putBack({ lot: first, from: ["clear"], n: 2, into: "locked" });
    expect(stages(first)).toEqual({ set: 22, locked: 2 });
    const at = new Date(NOW_MS - 3_600_000);
    expect((await lookLive({ setting, lot: first, day: 7, at })).at).toBe(at.toISOString());
    expect((await take({ lot: first, to: "clear", at })).at).toBe(at.toISOString());
    expect(standing.value.problems.map((one) => one.code)).toEqual([]);
  });

  it("takes an egg of unknown family from among several", async () => {
    const { setting, first, second } = await settingOfForty();
    await take({ lot: [first, second], to: "clear", why: "candled", day: 7 });
    expect(Object.fromEntries(standing.value.settings.get(setting)?.stages ?? [])).toEqual({
      set: 39,
      clear: 1,
    });
    expect(Object.fromEntries(standing.value.lots.get(first)?.open ?? [])).toEqual({ clear: 1 });
  });

  it("takes a whole lockdown back at once", async () => {
    const { setting, first } = await settingOfForty();
    const locked = await lockDown(setting);
    await undo(...locked.map((entry) => entry.id));
    expect(stages(first)).toEqual({ set: 24 });
    expect(standing.value.settings.get(setting)?.lockedAtMs).toBeNull();
  });

  it("counts again from nothing, and leaves what was taken out", async () => {
    const { setting, first } = await settingOfForty();
    await lookLive({ setting, lot: first, day: 7, n: 5 });
    await lookLive({ setting, lot: first, day: 10, n: 3 });
    await take({ lot: first, to: "clear", day: 7 });
    await countAgain(first, "candled", 7);
    expect(seenOn(first, 7)).toEqual({ live: 0, unsure: 0 });
    expect(seenOn(first, 10)).toEqual({ live: 3, unsure: 0 });
    await countedByHand(first, "set", 22);
    expect(standing.value.heads.counted?.map((head) => head.body)).toEqual([
      { lot: first, stage: "set", n: 22, ledger: 23 },
    ]);
  });
});
