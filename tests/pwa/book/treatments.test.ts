import { expect, it } from "vitest";
import { birdsOf } from "../../../pwa/src/book/birds.ts";
import { fold } from "../../../pwa/src/book/fold.ts";
import { birdsIn, pensOn } from "../../../pwa/src/book/pen-of.ts";
import { eggsHeldBack, matters, treatmentsOf, treatmentsOfBird } from "../../../pwa/src/book/treatments.ts";
import { entriesOf, idOf, written } from "./entries-of.ts";

const AT = Date.parse("2026-03-01T08:00:00Z");
const [FAMILY, PEN, OTHER, HEN, COCK] = [1, 2, 3, 4, 5].map(idOf) as [string, string, string, string, string];
const LOT = "01950000-0000-7000-9000-000000000001";
const book = fold(
  entriesOf([
    written(1, "family", { name: "Rowan", species: "chicken", breed: "Marsh Speckle" }, AT),
    written(2, "place", { name: "Top pen", role: "pen" }, AT),
    written(3, "place", { name: "Low pen", role: "pen" }, AT),
    written(4, "bird", { sex: "female", lots: [{ lot: LOT, share: 1 }] }, AT),
    written(5, "bird", { sex: "male" }, AT),
    written(
      6,
      "penned",
      { family: FAMILY, place: PEN, since: "2026-01-01", sires: [{ bird: COCK }], dams: [{ bird: HEN }] },
      AT,
    ),
    written(
      7,
      "penned",
      {
        family: FAMILY,
        place: OTHER,
        since: "2026-04-01",
        until: "2026-04-30",
        sires: [],
        dams: [{ bird: HEN }],
      },
      AT,
    ),
    written(10, "treated", { bird: HEN, product: "A", from: "2026-03-01", no_eggs_until: "2026-03-10" }, AT),
    written(11, "treated", { place: PEN, product: "B", from: "2026-03-05", until: "2026-03-07" }, AT),
    written(
      12,
      "treated",
      { place: OTHER, product: "C", from: "2026-04-02T09:00:00Z", no_meat_until: "2026-04-20" },
      AT,
    ),
    written(13, "treated", { lot: LOT, product: "D", from: "2026-02-01" }, AT),
  ]),
);
const products = (list: readonly { body: { product: string } }[]) => list.map(({ body }) => body.product);

it("holds eggs back through the day that was typed, and no longer", () => {
  expect(products(eggsHeldBack(book, "2026-03-10"))).toEqual(["A"]);
  expect(products(eggsHeldBack(book, "2026-03-11"))).toEqual([]);
});

it("matters while it is given and while eggs or meat are held back", () => {
  const on = (day: string) => products(treatmentsOf(book).filter((one) => matters(one, day)));
  expect(on("2026-03-06")).toEqual(["B", "A"]);
  expect(on("2026-03-09")).toEqual(["A"]);
  expect(on("2026-04-20")).toEqual(["C"]);
  expect(on("2026-04-21")).toEqual([]);
});

it("concerns a bird by itself, its batch, and the pen it stood in when it was given", () => {
  const birds = birdsOf(book, null);
  const of = (bird: string) => {
    const one = birds.get(bird);
    return one ? products(treatmentsOfBird(book, one)) : null;
  };
  expect(of(HEN)).toEqual(["C", "B", "A", "D"]);
  expect(of(COCK)).toEqual(["B"]);
});

it("a bird stands in the pen that named it last, until that pen's last day", () => {
  const home = (day: string) => pensOn(book, day).get(HEN)?.place;
  expect(["2025-12-31", "2026-01-01", "2026-04-30", "2026-05-01"].map(home)).toEqual([
    undefined,
    PEN,
    OTHER,
    PEN,
  ]);
  expect(birdsIn(book, PEN, "2026-04-30")).toEqual([COCK]);
});
