// Comings, goings and the daily sheet of one small invented spring, added up by hand beside each day.
import { describe, expect, it } from "vitest";
import { daySheets } from "../../../pwa/src/book/day-sheet.ts";
import { fold } from "../../../pwa/src/book/fold.ts";
import { trafficOf } from "../../../pwa/src/book/traffic.ts";
import { notWritten } from "../../../pwa/src/screens/setting-view.ts";
import { partsIn } from "../../../pwa/src/screens/told-entry.ts";
import { entriesOf, idOf, written } from "./entries-of.ts";

const [FAMILY, BOX, COCK, HEN, KEPT] = [1, 2, 3, 4, 20].map(idOf) as [string, string, string, string, string];
const LOT = "01950000-0000-7000-9000-000000000001";
const CAME = "01950000-0000-7000-9000-000000000002";
const at = (day: string) => Date.parse(`${day}T10:00:00Z`);
const dayOf = (atMs: number) => new Date(atMs).toISOString().slice(0, 10);
const move = (n: number, from: string, to: string, many: number, day: string, more = {}) =>
  written(n, "moved", { moves: [{ lot: LOT, from, to, n: many }], ...more }, at(day));

const HATCHED = [
  written(1, "family", { name: "Rowan", species: "chicken", breed: "Marsh Speckle" }, at("2026-03-01")),
  written(2, "place", { name: "Loft box", role: "incubator" }, at("2026-03-01")),
  written(
    6,
    "set",
    {
      place: BOX,
      species: "chicken",
      set_at: "2026-03-01T10:00:00Z",
      lots: [{ lot: LOT, family: FAMILY, n: 10 }],
    },
    at("2026-03-01"),
  ),
  move(7, "set", "hatched", 8, "2026-03-22"),
  move(8, "hatched", "brooding", 8, "2026-03-23"),
];

const SPRING = fold(
  entriesOf([
    written(1, "family", { name: "Rowan", species: "chicken", breed: "Marsh Speckle" }, at("2026-03-01")),
    written(2, "place", { name: "Loft box", role: "incubator" }, at("2026-03-01")),
    written(3, "bird", { sex: "male", family: FAMILY, name: "Old Tom" }, at("2026-03-01")),
    written(4, "bird", { sex: "female", family: FAMILY, name: "Meg" }, at("2026-03-02")),
    written(5, "came", { bird: HEN, on: "2026-03-02", how: "bought", from: "Fen End" }, at("2026-03-02")),
    written(
      6,
      "set",
      {
        place: BOX,
        species: "chicken",
        set_at: "2026-03-01T10:00:00Z",
        lots: [{ lot: LOT, family: FAMILY, n: 10, from: { who: "Hay Farm", arrived: "2026-02-27" } }],
      },
      at("2026-03-01"),
    ),
    move(7, "set", "hatched", 8, "2026-03-22"),
    move(8, "hatched", "brooding", 8, "2026-03-23"),
    move(9, "brooding", "died", 1, "2026-03-24", { why: "lost", cause: "weak" }),
    move(10, "brooding", "unaccounted", 1, "2026-03-25", { why: "lost", cause: "predator_rat" }),
    move(11, "unaccounted", "brooding", 1, "2026-03-26"),
    written(
      12,
      "came",
      { lot: CAME, n: 5, family: FAMILY, on: "2026-03-26", how: "given" },
      at("2026-03-26"),
    ),
    move(13, "brooding", "growing", 7, "2026-05-01"),
    move(14, "growing", "parted", 2, "2026-05-20", { why: "left", who: "A. Reed" }),
    move(15, "growing", "culled", 1, "2026-05-20", { why: "lost" }),
    move(16, "growing", "flock", 1, "2026-05-21"),
    written(20, "bird", { sex: "female", lots: [{ lot: LOT, share: 1 }], family: FAMILY }, at("2026-05-21")),
    written(21, "left", { bird: COCK, on: "2026-05-22", how: "lent", to: "Hay Farm" }, at("2026-05-22")),
    written(22, "left", { bird: HEN, on: "2026-05-22", how: "died", cause: "disease" }, at("2026-05-22")),
    written(23, "came", { bird: COCK, on: "2026-05-23", how: "returned" }, at("2026-05-23")),
    written(
      24,
      "eggs_out",
      { family: FAMILY, on: "2026-05-23", n: 6, how: "sold", to: "B. Hill" },
      at("2026-05-23"),
    ),
    written(25, "eggs_out", { family: FAMILY, on: "2026-05-23", n: 2, how: "eaten" }, at("2026-05-23")),
    written(
      26,
      "treated",
      { bird: KEPT, product: "Wormer", from: "2026-05-24", by: "Vet" },
      at("2026-05-24"),
    ),
  ]),
);

describe("comings and goings", () => {
  it("tells each with its day, whom it is about, and from or to whom", () => {
    const told = trafficOf(SPRING, dayOf).map((one) => [one.on, one.way, one.n, one.who ?? one.more]);
    expect(told).toEqual([
      ["2026-02-27", "eggs_came", 10, "Hay Farm"],
      ["2026-03-02", "came", 1, "Fen End"],
      ["2026-03-24", "died", 1, "weak"],
      ["2026-03-25", "missing", 1, "predator_rat"],
      ["2026-03-26", "came", 1, null], // found again
      ["2026-03-26", "came", 5, null],
      ["2026-05-20", "left", 2, "A. Reed"],
      ["2026-05-20", "culled", 1, null],
      ["2026-05-22", "left", 1, "Hay Farm"],
      ["2026-05-22", "died", 1, "disease"],
      ["2026-05-23", "came", 1, null],
      ["2026-05-23", "eggs_left", 6, "B. Hill"],
      ["2026-05-24", "treated", null, "Vet"],
    ]);
  });

  it("tells of no chicks of whom nobody wrote what became", () => {
    const counts = [...HATCHED, move(9, "brooding", "parted", 3, "2026-03-25", { cause: "not written" })];
    const before = trafficOf(fold(entriesOf(HATCHED)), dayOf);
    const totals = fold(entriesOf(counts));
    expect(trafficOf(totals, dayOf)).toEqual(before);
    expect([...totals.lots.values()].map(notWritten)).toEqual([3]);
    const sold = [...HATCHED, move(9, "brooding", "parted", 3, "2026-03-25", { why: "left" })];
    expect(trafficOf(fold(entriesOf(sold)), dayOf)).toHaveLength(before.length + 1);
    expect([...fold(entriesOf(sold)).lots.values()].map(notWritten)).toEqual([0]);
    const [entry] = entriesOf(counts).slice(-1);
    expect(entry && partsIn(entry, totals)).toEqual([
      { whose: "Rowan", n: 3, what: "hatched, then not written of" },
    ]);
  });

  it("names the family of birds and chicks alike", () => {
    const about = trafficOf(SPRING, dayOf).filter(({ way }) => way !== "treated");
    expect(new Set(about.map(({ family }) => family))).toEqual(new Set([FAMILY]));
  });
});

describe("the daily sheet", () => {
  // kept at the end of the day: birds + chicks
  it.each([
    ["2026-02-28", 0, 0, 0, 0, 0, 0],
    ["2026-03-01", 1, 0, 0, 0, 0, 0], // Old Tom
    ["2026-03-02", 2, 0, 1, 0, 0, 0], // and Meg
    ["2026-03-22", 10, 8, 0, 0, 0, 0], // 2 + 8
    ["2026-03-24", 9, 0, 0, 0, 1, 0],
    ["2026-03-25", 8, 0, 0, 0, 0, 1],
    ["2026-03-26", 14, 0, 6, 0, 0, 0], // found again, and 5 came
    ["2026-05-01", 14, 0, 0, 0, 0, 0], // moved house only
    ["2026-05-20", 11, 0, 0, 2, 1, 0], // 2 sold, 1 culled
    ["2026-05-21", 11, 0, 0, 0, 0, 0], // one chick is a bird now, counted once
    ["2026-05-22", 9, 0, 0, 1, 1, 0], // Old Tom lent, Meg dead
    ["2026-05-23", 10, 0, 1, 0, 0, 0], // Old Tom back
  ])("%s: %i kept", (on, kept, hatched, came, left, died, missing) => {
    expect(daySheets(SPRING, [on], dayOf)).toEqual([{ on, kept, hatched, came, left, died, missing }]);
  });

  it("counts a bird once that was written down while its batch still grows, and one that died since", () => {
    const lots = [{ lot: LOT, share: 1 }];
    const growing = fold(
      entriesOf([
        ...HATCHED,
        written(30, "bird", { sex: "male", lots, family: FAMILY }, at("2026-05-02")),
        written(31, "bird", { sex: "male", lots, family: FAMILY }, at("2026-05-02")),
        written(32, "left", { bird: idOf(31), on: "2026-05-04", how: "died" }, at("2026-05-04")),
      ]),
    );
    const kept = ["2026-05-01", "2026-05-02", "2026-05-04"].map(
      (on) => daySheets(growing, [on], dayOf)[0]?.kept,
    );
    expect(kept).toEqual([8, 8, 7]);
  });

  it("counts a missing chick that is put back into hatched as found again, and an egg that was lost from sight as hatched", () => {
    const book = fold(
      entriesOf([
        ...HATCHED.slice(0, -1),
        move(8, "set", "unaccounted", 2, "2026-03-22"),
        move(9, "hatched", "unaccounted", 1, "2026-03-23"),
        move(10, "unaccounted", "hatched", 2, "2026-03-24"), // the chick, and one of the eggs
        move(11, "unaccounted", "brooding", 1, "2026-03-25"), // the other had hatched too
      ]),
    );
    const sheets = daySheets(book, ["2026-03-22", "2026-03-23", "2026-03-24", "2026-03-25"], dayOf);
    expect(sheets.map(({ kept, hatched, came, missing }) => [kept, hatched, came, missing])).toEqual([
      [8, 8, 0, 0],
      [7, 0, 0, 1],
      [9, 1, 1, 0],
      [10, 0, 1, 0],
    ]);
    const came = trafficOf(book, dayOf).filter(({ way }) => way === "came");
    expect(came.map(({ entry, n, how, family }) => [entry, n, how, family])).toEqual([
      [idOf(10), 1, "found", FAMILY],
      [idOf(11), 1, "found", FAMILY],
    ]);
  });

  it("counts losses of the day they hatched, and those nobody knows the family of", () => {
    const OTHER = "01950000-0000-7000-9000-000000000003";
    const lots = [LOT, OTHER].map((lot) => ({ lot, family: FAMILY, n: 10 }));
    const set = { place: BOX, species: "chicken", set_at: "2026-03-01T10:00:00Z", lots };
    const day = at("2026-03-22");
    const among = { among: [LOT, OTHER], from: "hatched", to: "died", n: 2 };
    const book = fold(
      entriesOf([
        ...HATCHED.slice(0, 2),
        written(6, "set", set, at("2026-03-01")),
        move(7, "set", "hatched", 8, "2026-03-22"),
        written(8, "moved", { moves: [{ lot: LOT, from: "hatched", to: "died", n: 1 }] }, day),
        written(9, "moved", { moves: [among] }, day + 3_600_000),
      ]),
    );
    expect(daySheets(book, ["2026-03-22"], dayOf)).toEqual([
      { on: "2026-03-22", kept: 5, hatched: 8, came: 0, left: 0, died: 3, missing: 0 },
    ]);
  });
});
