import { describe, expect, it } from "vitest";
import { birdsOf } from "../../../pwa/src/book/birds.ts";
import { fold } from "../../../pwa/src/book/fold.ts";
import { birdsIn, pensOn } from "../../../pwa/src/book/pen-of.ts";
import {
  eggsHeldBack,
  eggsOfFamilyHeldBack,
  matters,
  treatmentsOf,
  treatmentsOfBird,
} from "../../../pwa/src/book/treatments.ts";
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

describe("a treatment of all in a pen", () => {
  const [COCK_A, HEN_B, HEN_C, LATE, BOX] = [6, 7, 8, 9, 10].map(idOf) as [
    string,
    string,
    string,
    string,
    string,
  ];
  const day = (on: string) => Date.parse(`${on}T10:00:00Z`);
  const pen = (n: number, since: string, dams: readonly string[], more = {}) => {
    const sires = [{ bird: COCK_A }];
    const body = { family: FAMILY, place: PEN, since, sires, dams: dams.map((bird) => ({ bird })), ...more };
    return written(n, "penned", body, day(since));
  };
  const treated = (n: number, from: string, until: string | null, more = {}) =>
    written(
      n,
      "treated",
      { place: PEN, product: `P${n}`, from, ...(until ? { until } : {}), ...more },
      day(from),
    );
  const flock = (more: readonly unknown[]) =>
    fold(
      entriesOf([
        written(1, "family", { name: "Rowan", species: "chicken", breed: "Marsh Speckle" }, AT),
        written(2, "place", { name: "Top pen", role: "pen" }, AT),
        written(3, "place", { name: "Low pen", role: "pen" }, AT),
        written(4, "family", { name: "Hazel", species: "chicken", breed: "Marsh Speckle" }, AT),
        ...[COCK_A, HEN_B, HEN_C, LATE].map((_, i) =>
          written(6 + i, "bird", { sex: i === 0 ? "male" : "female", family: FAMILY }, AT),
        ),
        written(10, "place", { name: "Box", role: "hen", bird: HEN_C }, AT),
        ...more,
      ]),
    );
  const of = (standing: ReturnType<typeof flock>, bird: string) => {
    const one = birdsOf(standing, null).get(bird);
    if (!one) throw new Error("no such bird");
    return products(treatmentsOfBird(standing, one)).sort();
  };

  it("is of a hen that came in on any of its days, not of one that came after", () => {
    const totals = flock([
      pen(20, "2026-02-01", [HEN_B]),
      treated(21, "2026-03-01", "2026-03-07"),
      pen(22, "2026-03-02", [HEN_B, HEN_C]),
      pen(23, "2026-03-07", [HEN_B, HEN_C, LATE]),
      treated(24, "2026-02-20", "2026-02-25"),
      treated(25, "2026-03-06", null),
    ]);
    expect(of(totals, HEN_B)).toEqual(["P21", "P24", "P25"]);
    expect(of(totals, HEN_C)).toEqual(["P21", "P25"]);
    expect(of(totals, LATE)).toEqual(["P21"]);
  });

  it("is of a hen that was moved out that day, not of one that was left out of the pen before", () => {
    const totals = flock([
      pen(20, "2026-02-01", [HEN_B, HEN_C]),
      pen(21, "2026-03-01", [HEN_B]),
      treated(22, "2026-03-01", "2026-03-07"),
      treated(23, "2026-03-02", "2026-03-07"),
    ]);
    expect(of(totals, HEN_C)).toEqual(["P22"]);
    expect(pensOn(totals, "2026-04-01").get(HEN_C)).toBeUndefined();
    expect(birdsIn(totals, PEN, "2026-04-01")).toEqual([COCK_A, HEN_B]);
  });

  it("is of no hen that stood in another pen all that time, though hers still names her", () => {
    const totals = flock([
      pen(20, "2026-02-01", [HEN_B]),
      pen(21, "2026-02-10", [HEN_B], { family: idOf(4), place: OTHER, until: "2026-02-20" }),
      treated(22, "2026-02-12", "2026-02-20"),
      treated(23, "2026-02-12", "2026-02-21"),
      treated(24, "2026-02-10", "2026-02-12"),
    ]);
    expect(of(totals, HEN_B)).toEqual(["P23", "P24"]); // back in hers on the 21st, moved out of it on the 10th
  });

  it("is of the hen that sits where it was given", () => {
    const totals = flock([written(20, "treated", { place: BOX, product: "D", from: "2026-03-01" }, AT)]);
    expect(of(totals, HEN_C)).toEqual(["D"]);
    expect(of(totals, HEN_B)).toEqual([]);
  });

  it("holds back the eggs of the family whose pen it was, also those laid then and still in store", () => {
    const totals = flock([
      pen(20, "2026-02-01", [HEN_B], { family: idOf(4) }),
      treated(21, "2026-03-01", "2026-03-02", { no_eggs_until: "2026-03-10" }),
      treated(22, "2026-03-01", "2026-03-02"),
    ]);
    const held = (family: string, on: string, laid: readonly string[]) =>
      products(eggsOfFamilyHeldBack(totals, family, on, laid));
    expect(held(idOf(4), "2026-03-10", [])).toEqual(["P21"]);
    expect(held(FAMILY, "2026-03-10", ["2026-03-05"])).toEqual([]);
    expect(held(idOf(4), "2026-03-11", ["2026-03-11", "2026-02-28"])).toEqual([]);
    expect(held(idOf(4), "2026-03-12", ["2026-03-10"])).toEqual(["P21"]);
  });

  it("where nobody knows whose hens they are, holds back the eggs of all families", () => {
    const totals = flock([treated(21, "2026-03-01", null, { no_eggs_until: "2026-03-10" })]);
    for (const family of [FAMILY, idOf(4)])
      expect(products(eggsOfFamilyHeldBack(totals, family, "2026-03-09", []))).toEqual(["P21"]);
  });
});

it("given once, without a last day, matters on its own day", () => {
  const [once] = entriesOf([written(20, "treated", { bird: HEN, product: "E", from: "2026-05-01" }, AT)]);
  if (!once) throw new Error("no entry");
  const [one] = treatmentsOf(fold([once]));
  expect(one && ["2026-04-30", "2026-05-01", "2026-05-02"].map((day) => matters(one, day))).toEqual([
    false,
    true,
    false,
  ]);
});
