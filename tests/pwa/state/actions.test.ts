import { beforeEach, describe, expect, it, vi } from "vitest";
import {
  addPlace,
  amend,
  beginBook,
  bringBack,
  lockDown,
  nameFamily,
  nameKeeper,
  record,
  startSetting,
  taskDone,
  undo,
} from "../../../pwa/src/state/actions.ts";
import { openDesk } from "../../../pwa/src/state/desk.ts";
import { openAtStart } from "../../../pwa/src/state/opening.ts";
import { NotRecorded, recent } from "../../../pwa/src/state/recording.ts";
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

describe("a setting begun with a new place and new families", () => {
  const start = {
    place: { name: "Loft box", role: "incubator" },
    species: "chicken",
    set_at: new Date(NOW_MS),
    lots: [
      { family: { name: "Rowan", species: "chicken", breed: "Marans" }, n: 24 },
      { family: { name: "Hazel", species: "chicken", breed: "Marans" }, n: 16 },
    ],
  } as const;

  it("is one act of storage: all of it is kept, or nothing", async () => {
    const { storage } = openDesk();
    const saved: number[] = [];
    const append = storage.append.bind(storage);
    storage.append = (entries) => {
      saved.push(entries.length);
      return append(entries);
    };
    const { id } = await startSetting(start);
    expect(saved).toEqual([4]);
    const setting = standing.value.settings.get(id);
    expect(standing.value.places.get(setting?.place ?? "")).toEqual({ name: "Loft box", role: "incubator" });
    const named = setting?.lots.map((lot) => {
      const { n, family } = standing.value.lots.get(lot) ?? {};
      return [n, standing.value.families.get(family ?? "")?.name];
    });
    expect(named).toEqual([
      [24, "Rowan"],
      [16, "Hazel"],
    ]);
    expect(standing.value.problems).toEqual([]);
  });

  it("is on the screen at once, so that a second tap need not set the eggs twice", async () => {
    const id = openDesk().ids.next();
    const saving = startSetting(start, id);
    expect(standing.value.settings.has(id)).toBe(true);
    await saving;
  });

  it("writes nothing at all where one part of it cannot be written", async () => {
    const lots = [{ family: { name: "x".repeat(9000), species: "chicken", breed: "Marans" }, n: 1 }];
    await expect(startSetting({ ...start, lots })).rejects.toBeInstanceOf(NotRecorded);
    expect(await openDesk().storage.all()).toEqual([]);
    expect(standing.value.places.size).toBe(0);
  });
});

describe("a book", () => {
  it("begins with holding, machine and families in one act", async () => {
    const { storage } = openDesk();
    const append = vi.spyOn(storage, "append");
    await beginBook(
      { holding: "Gorse Bank", zone: "Europe/Dublin", temperature: "C", mass: "g" },
      { name: "Loft box", role: "incubator" },
      [{ name: "Rowan", species: "chicken", breed: "Marans" }],
    );
    expect(append).toHaveBeenCalledTimes(1);
    const { keeper, places, families } = standing.value;
    expect([keeper.holding, places.size, families.size]).toEqual(["Gorse Bank", 1, 1]);
  });
});

describe("an entry", () => {
  it("carries who, when, where and how far the clocks are apart", async () => {
    const entry = await record("note", { text: "frost" });
    expect(entry).toMatchObject({
      v: 1,
      kind: "note",
      device: openDesk().card.device,
      at: "2026-03-08T19:40:00.000Z",
      zone: "Europe/Dublin",
      skew_ms: null,
      amends: null,
      void: false,
      body: { text: "frost" },
    });
    expect(entry.id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7/);
  });

  it("tells when it happened, where that was earlier", async () => {
    const at = new Date("2026-03-07T08:00:00Z");
    expect((await record("note", { text: "frost" }, { at })).at).toBe("2026-03-07T08:00:00.000Z");
  });

  it("leaves out what was left open", async () => {
    const entry = await addPlace({ name: "Box", role: "incubator", capacity: null });
    expect(entry.body).toEqual({ name: "Box", role: "incubator" });
    const start = { place: entry.id, species: "chicken", set_at: new Date(NOW_MS) };
    const set = await startSetting({ ...start, lots: [{ family: "f", n: 1, sign: null }] });
    expect((set.body as unknown as { lots: unknown[] }).lots).toEqual([
      { family: "f", n: 1, lot: expect.any(String) },
    ]);
  });

  it("that is too long is refused before anything is shown or saved", async () => {
    await expect(record("note", { text: "x".repeat(9000) })).rejects.toBeInstanceOf(NotRecorded);
    expect(standing.value.heads.note).toBeUndefined();
    expect(await openDesk().storage.all()).toEqual([]);
  });
});

describe("corrections", () => {
  it("replace what is shown, also when it was corrected before", async () => {
    const { id } = await nameFamily({ name: "Rowan", species: "chicken", breed: "Marans" });
    await amend(id, "family", { name: "Rowen", species: "chicken", breed: "Marans" });
    await amend(id, "family", { name: "Rowan", species: "chicken", breed: "Marans", sign: "R" });
    expect([...standing.value.families]).toEqual([
      [id, { name: "Rowan", species: "chicken", breed: "Marans", sign: "R" }],
    ]);
    expect(standing.value.problems).toEqual([]);
  });

  it("keep the time at which the act happened", async () => {
    const at = new Date("2026-03-07T08:00:00Z");
    const { id } = await record("note", { text: "frots" }, { at });
    expect((await amend(id, "note", { text: "frost" })).at).toBe(at.toISOString());
  });

  it("take back and bring back, any number of times", async () => {
    const { id } = await record("note", { text: "frost" });
    const notes = () => standing.value.heads.note?.map((head) => head.body.text) ?? [];
    for (let i = 0; i < 2; i += 1) {
      await undo(id);
      expect(notes()).toEqual([]);
      await undo(id); // nothing left to take back: adds no entry
      await bringBack(id);
      expect(notes()).toEqual(["frost"]);
    }
    expect(await openDesk().storage.all()).toHaveLength(5);
    expect(standing.value.problems).toEqual([]);
  });

  it("know one keeper, however often the holding is named", async () => {
    const body = { holding: "Gorse Bank", zone: "Europe/Dublin", temperature: "C", mass: "g" } as const;
    await nameKeeper(body);
    await nameKeeper({ ...body, altitude_m: 210 });
    expect(standing.value.keeper).toMatchObject({ holding: "Gorse Bank", altitude_m: 210 });
    expect(standing.value.problems).toEqual([]);
  });

  it("leave the list of recent acts", async () => {
    const one = await record("note", { text: "frost" });
    const two = await record("note", { text: "snow" });
    expect(recent.value.map((entry) => entry.id)).toEqual([one.id, two.id]);
    await undo(two.id);
    expect(recent.value.map((entry) => entry.id)).toEqual([one.id]);
  });
});

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

it("notes a task of the day as done", async () => {
  const { body } = await taskDone("water", undefined, "2026-03-08");
  expect(body).toEqual({ task: "water", on: "2026-03-08" });
});
