import { beforeEach, describe, expect, it, vi } from "vitest";
import { record, undo } from "../../../pwa/src/state/actions.ts";
import { openDesk } from "../../../pwa/src/state/desk.ts";
import {
  addPlace,
  amend,
  beginBook,
  bringBack,
  nameFamily,
  nameKeeper,
  taskDone,
} from "../../../pwa/src/state/holding.ts";
import { openAtStart } from "../../../pwa/src/state/opening.ts";
import { NotRecorded, recent } from "../../../pwa/src/state/recording.ts";
import { startSetting } from "../../../pwa/src/state/set-eggs.ts";
import { standing } from "../../../pwa/src/state/standing.ts";
import { browser, killApp, NOW_MS } from "./surroundings.ts";

beforeEach(async () => {
  await killApp();
  await openAtStart(browser().around);
});

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

it("notes a task of the day as done", async () => {
  const { body } = await taskDone("water", "2026-03-08");
  expect(body).toEqual({ task: "water", on: "2026-03-08" });
});
