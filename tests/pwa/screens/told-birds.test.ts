// Lines of the book about birds, as a keeper reads them.
import { expect, it } from "vitest";
import { fold } from "../../../pwa/src/book/fold.ts";
import { headingOf } from "../../../pwa/src/screens/told-heading.ts";
import { entriesOf, idOf, written } from "../book/entries-of.ts";

const AT = Date.parse("2026-05-01T08:00:00Z");
const LOT = "01950000-0000-7000-9000-000000000001";
const [FAMILY, HEN] = [1, 2].map(idOf) as [string, string];

const entries = entriesOf([
  written(1, "family", { name: "Rowan", species: "chicken", breed: "Marsh Speckle" }, AT),
  written(
    2,
    "bird",
    { sex: "female", family: FAMILY, tags: [{ kind: "ring", colour: "red", text: "101" }] },
    AT,
  ),
  written(
    3,
    "came",
    { lot: LOT, n: 5, family: FAMILY, on: "2026-05-01", how: "bought", from: "Fen End" },
    AT,
  ),
  written(4, "came", { bird: HEN, on: "2026-05-01", how: "returned" }, AT),
  written(5, "left", { bird: HEN, on: "2026-05-02", how: "lost", cause: "predator_fox" }, AT),
  written(6, "left", { bird: HEN, on: "2026-05-02", how: "sold", to: "A. Reed" }, AT),
  written(7, "weighed", { lot: LOT, birds: [{ mass_g: 38.5 }], on: "2026-05-01" }, AT),
  written(8, "weighed", { birds: [{ bird: HEN, mass_g: 1800 }], on: "2026-05-01" }, AT),
  written(9, "weighed", { lot: LOT, birds: [{ mass_g: 300 }, { mass_g: 400 }], on: "2026-05-01" }, AT),
  written(10, "treated", { lot: LOT, product: "Wormer", from: "2026-05-01" }, AT),
  written(11, "order", { text: "Keep them in", kind: "housing", since: "2026-05-01" }, AT),
  written(12, "note", { about: HEN, text: "Sits well" }, AT),
  written(13, "moved", { moves: [{ lot: LOT, from: "brooding", to: "flock", n: 1 }] }, AT),
]);

it("says who, what and how much", () => {
  const totals = fold(entries);
  expect(entries.slice(1).map((entry) => headingOf(entry, totals))).toEqual([
    "A bird: red 101, hen",
    "5 young birds of Rowan came, bought, Fen End",
    "red 101 came back",
    "red 101: missing, Fox",
    "red 101: sold, A. Reed",
    "One of Rowan weighed: 38.5 g",
    "red 101 weighed: 1800 g",
    "2 birds of Rowan weighed, mean 350 g",
    "Rowan treated: Wormer",
    "An order: Keep them in",
    "Note: Sits well",
    "Kept as birds",
  ]);
});
