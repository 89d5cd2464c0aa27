import { describe, expect, it } from "vitest";
import type { Family } from "../../../pwa/src/book/bodies.generated.ts";
import type { FamilyStore } from "../../../pwa/src/book/egg-store.ts";
import { fold } from "../../../pwa/src/book/fold.ts";
import {
  asOf,
  type Batch,
  batchesAgain,
  faultOf,
  firstBatches,
  fromStore,
  lotOf,
  NEW,
  newBatch,
  sameSign,
} from "../../../pwa/src/screens/set-draft.ts";
import { entriesOf, idOf, written } from "../book/entries-of.ts";

const rowan: Family = { name: "Rowan", species: "chicken", breed: "Sussex", sign: "R" };
const hazel: Family = { name: "Hazel", species: "chicken", breed: "Sussex" };
const parcel = (on: string, n: number, ageDays: number) => ({ on, n, ageDays, dam: null, store: null });
const store = (family: string, parcels: FamilyStore["parcels"]): FamilyStore => ({
  ...{ family, parcels, gathered: 0, kept: 0, out: 0, set: 0, beyond: 0, kept7d: 0 },
  n: parcels.reduce((sum, one) => sum + one.n, 0),
  oldestDays: parcels[0]?.ageDays ?? null,
});
const shelf = store("r", [
  parcel("2026-03-01", 3, 12),
  parcel("2026-03-05", 4, 8),
  parcel("2026-03-12", 5, 1),
]);

describe("a batch begins", () => {
  it("with what lies in store and is fit to set, laid from when to when", () => {
    expect(newBatch(["r", rowan], shelf)).toMatchObject({
      family: "r",
      n: 9,
      sign: "R",
      laidFrom: "2026-03-05",
      laidTo: "2026-03-12",
    });
    expect(fromStore(shelf, 7)).toEqual({ n: 5, laidFrom: "2026-03-12", laidTo: "2026-03-12", filled: true });
    expect(fromStore(shelf, 0)).toBeUndefined();
  });

  it("with the usual dozen where the store says nothing", () => {
    expect(newBatch(["h", hazel])).toMatchObject({ family: "h", n: 12, sign: "", laidFrom: "" });
    expect(newBatch(undefined)).toMatchObject({ family: NEW, n: 12 });
  });

  it("for every family that has eggs, or for the first", () => {
    const both = [
      ["h", hazel],
      ["r", rowan],
    ] as const;
    expect(firstBatches(both, new Map([["r", shelf]])).map((one) => one.family)).toEqual(["r"]);
    expect(firstBatches(both, new Map()).map((one) => one.family)).toEqual(["h"]);
    expect(firstBatches([], new Map()).map((one) => one.family)).toEqual([NEW]);
  });
});

it("a setting once more has both batches of one family again, and divides what lies in store as then", () => {
  const at_ms = Date.parse("2026-03-01T08:00:00Z");
  const lots = [
    { lot: "01950000-0000-7000-9000-000000000001", family: idOf(1), n: 10, sign: "R1" },
    { lot: "01950000-0000-7000-9000-000000000002", family: idOf(2), n: 6 },
    { lot: "01950000-0000-7000-9000-000000000003", family: idOf(1), n: 20, sign: "R2" },
  ];
  const standing = fold(
    entriesOf([
      written(1, "family", rowan, at_ms),
      written(2, "family", hazel, at_ms),
      written(3, "place", { name: "Loft box", role: "incubator" }, at_ms),
      written(4, "set", { place: idOf(3), species: "chicken", set_at: "2026-03-01T08:00:00Z", lots }, at_ms),
    ]),
  );
  const [setting] = standing.settings.values();
  if (!setting) throw new Error("no setting");
  const again = (stores: ReadonlyMap<string, FamilyStore>) =>
    batchesAgain(standing, setting, stores).map(({ family, sign, n }) => [family, sign, n]);
  expect(again(new Map())).toEqual([
    [idOf(1), "R1", 10],
    [idOf(2), "", 6],
    [idOf(1), "R2", 20],
  ]);
  const stored = store(idOf(1), [parcel("2026-03-12", 9, 1)]);
  expect(again(new Map([[idOf(1), stored]])).map(([, , n]) => n)).toEqual([3, 6, 6]);
});

describe("a batch is kept from being saved", () => {
  const sound = newBatch(["r", rowan]);
  it.each<[string, Partial<Batch>, string | null]>([
    ["not where it is sound", {}, null],
    ["without a name for its family", { family: NEW, name: " " }, "family"],
    ["without eggs", { n: 0 }, "count"],
    ["bought of nobody", { where: "post" }, "who"],
    ["laid the wrong way round", { laidFrom: "2026-03-05", laidTo: "2026-03-04" }, "swapped"],
    ["laid after it was set", { laidTo: "2026-03-13" }, "ahead"],
    ["with more found than set", { found: { clear: 8, quitter: 5 } }, "found"],
  ])("%s", (_, part, fault) => {
    expect(faultOf({ ...sound, ...part }, "2026-03-12")).toBe(fault);
  });
});

it("is told as the entry has it: own eggs without `from`, posted ones with", () => {
  const own = lotOf({ ...newBatch(["r", rowan]), oneHen: true, hen: "b" }, "chicken");
  expect(own).toMatchObject({
    family: "r",
    n: 12,
    sign: "R",
    from: null,
    one_hen: true,
    dams: [{ bird: "b" }],
  });
  const posted = { where: "post", who: " A. Moss ", arrived: "2026-03-11" } as const;
  expect(lotOf({ ...newBatch(["r", rowan]), ...posted }, "chicken").from).toEqual({
    who: "A. Moss",
    posted: true,
    arrived: "2026-03-11",
  });
  const founded = lotOf({ ...newBatch(undefined), name: "Alder ", sign: "A" }, "duck");
  expect(founded.family).toEqual({ name: "Alder", species: "duck", breed: "Alder", sign: "A" });
});

describe("a batch filled in for today, but set earlier", () => {
  const today = newBatch(["r", rowan], shelf);

  it("is of what was laid by then", () => {
    expect(asOf(today, "2026-03-12", shelf)).toBe(today);
    expect(asOf(today, "2026-03-06", shelf)).toMatchObject({
      n: 4,
      laidFrom: "2026-03-05",
      laidTo: "2026-03-05",
    });
  });

  it("keeps the days a keeper told, right or wrong", () => {
    const told = { ...today, filled: false };
    expect(asOf(told, "2026-03-06", shelf)).toBe(told);
    expect(faultOf(told, "2026-03-06")).toBe("ahead");
  });

  it("of nobody knows when, where none lay there then", () => {
    expect(asOf(today, "2026-02-20", shelf)).toMatchObject({ n: 9, laidFrom: "", laidTo: "" });
    expect(asOf(today, "2026-02-20", undefined)).toMatchObject({ laidFrom: "", laidTo: "" });
  });
});

it("two families of one sign are noticed, two batches of one family are not", () => {
  const of = (family: string, sign: string): Batch => ({ ...newBatch(["r", rowan]), family, sign });
  expect(sameSign([of("r", "R"), of("h", " r")])).toHaveLength(2);
  expect(sameSign([of("r", "R"), of("r", "R")])).toBeNull();
  expect(sameSign([of("r", ""), of("h", "")])).toBeNull();
  expect(sameSign([of(NEW, "N"), of(NEW, "N")])).toHaveLength(2);
});
