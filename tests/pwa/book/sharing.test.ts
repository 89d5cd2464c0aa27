// What a new setting meets in its machine. Days and temperatures: Texas A&M B-6092 (copy), as in the tables; worked
// out by hand: chicken 18 and 21 days at 99.5 °F, wet 86; pigeon 14 and 17 to 19 at 100.5 °F, wet 88; duck 25 and 28.
import { describe, expect, it } from "vitest";
import type { Place } from "../../../pwa/src/book/bodies.generated.ts";
import { fold } from "../../../pwa/src/book/fold.ts";
import { type Clash, clashesOf, type Newcomer } from "../../../pwa/src/book/sharing.ts";
import { DAY_MS } from "../../../pwa/src/trade/calendar.ts";
import { entriesOf, idOf, written } from "./entries-of.ts";

const DAY_0 = Date.UTC(2026, 2, 1, 8);
const BOX = idOf(1);

interface There {
  readonly species: string;
  readonly day: number;
  readonly n: number;
}

/** What 20 eggs set on day 0 meet. there: what was set before, on which day. */
function met(there: readonly There[], newcomer: Partial<Newcomer> = {}, place: Partial<Place> = {}): Clash[] {
  const sets = there.map(({ species, day, n }, i) => {
    const set_at = new Date(DAY_0 + day * DAY_MS).toISOString();
    const body = {
      place: BOX,
      species,
      set_at,
      lots: [{ lot: idOf(50 + i), family: idOf(2), n }],
    };
    return written(10 + i, "set", body, DAY_0);
  });
  const book = [
    written(1, "place", { name: "Loft box", role: "incubator", ...place }, DAY_0),
    written(2, "family", { name: "Rowan", species: "chicken", breed: "Sussex" }, DAY_0),
    ...sets,
  ];
  const usual = { place: BOX, species: "chicken", setAtMs: DAY_0, n: 20, lockdownDay: null };
  return clashesOf(fold(entriesOf(book)), { ...usual, ...newcomer });
}

const whats = (clashes: readonly Clash[]) => clashes.map(({ what }) => what);

describe("a machine shared", () => {
  it("with nothing, or with eggs of the same day, is no matter", () => {
    expect(met([])).toEqual([]);
    expect(met([{ species: "chicken", day: -0.5, n: 12 }])).toEqual([]);
    expect(met([{ species: "chicken", day: -30, n: 12 }])).toEqual([]);
  });

  it("holds only so many", () => {
    const crowd = met([{ species: "chicken", day: 0, n: 12 }], { n: 20 }, { capacity: 30 });
    expect(crowd).toEqual([{ what: "full", n: 32, capacity: 30 }]);
    expect(met([{ species: "chicken", day: 0, n: 12 }], { n: 18 }, { capacity: 30 })).toEqual([]);
  });

  it("counts eggs that still lie in it though their days are over, or nobody knows how long they take", () => {
    const full = (n: number) => [{ what: "full", n, capacity: 30 }];
    expect(met([{ species: "chicken", day: -30, n: 12 }], {}, { capacity: 30 })).toEqual(full(32));
    expect(met([{ species: "phoenix", day: -3, n: 11 }], {}, { capacity: 30 })).toEqual(full(31));
  });

  it("with eggs a week ahead: their lockdown falls on day 11", () => {
    const found = met([{ species: "chicken", day: -7, n: 12 }]);
    expect(found).toMatchObject([{ what: "their_lockdown", day: 11, atMs: DAY_0 + 11 * DAY_MS }]);
  });

  it("with ducks set the day before: chickens go into lockdown while ducks are on day 19", () => {
    const found = met([{ species: "duck", day: -1, n: 6 }]);
    expect(found).toMatchObject([{ what: "own_lockdown", day: 19, atMs: DAY_0 + 18 * DAY_MS }]);
  });

  it("with ducks eleven days ahead: neither stops before the other needs turning to the end", () => {
    // ducks lock on day 14 of the chickens, which turn until 18
    expect(met([{ species: "duck", day: -11, n: 6 }])).toMatchObject([{ what: "their_lockdown", day: 14 }]);
    // seven days ahead both lock down, and hatch, on the same days: staggered as they should be
    expect(met([{ species: "duck", day: -7, n: 6 }])).toEqual([]);
  });

  it("gives one temperature and one air", () => {
    const found = met([{ species: "pigeon", day: -4, n: 4 }]);
    expect(whats(found)).toEqual(["warmth", "moisture", "their_lockdown"]);
    const [warmth] = found;
    if (warmth?.what !== "warmth") throw new Error("no warmth");
    expect(warmth.newC).toBeCloseTo(37.5, 2);
    expect(warmth.theirsC).toBeCloseTo(38.06, 2);
  });

  it("turns nothing if it is a hatcher", () => {
    expect(met([], {}, { role: "hatcher" })).toEqual([{ what: "no_turning" }]);
  });
});

describe("under a hen", () => {
  it("eggs are crowded above ten of her own kind (FAO 2004), unless the keeper says what she covers", () => {
    expect(met([], { n: 10 }, { role: "hen" })).toEqual([]);
    expect(met([], { n: 12 }, { role: "hen" })).toEqual([{ what: "hen_full", n: 12, most: 16, better: 10 }]);
    expect(met([], { n: 12 }, { role: "hen", capacity: 12 })).toEqual([]);
    expect(met([], { n: 12, species: "coturnix" }, { role: "hen" })).toEqual([]);
    expect(met([], { n: 12, place: "new", role: "hen" })).toMatchObject([{ what: "hen_full" }]);
  });

  it("only a clutch that hatches apart is named: no air, turning or lockdown", () => {
    expect(met([{ species: "duck", day: -7, n: 4 }], { n: 5 }, { role: "hen" })).toEqual([]);
    const found = met([{ species: "chicken", day: -5, n: 4 }], { n: 5 }, { role: "hen" });
    expect(found).toMatchObject([{ what: "hen_leaves", days: 5 }]);
  });
});

it("a species without days clashes with nothing it is not known to", () => {
  expect(met([{ species: "chicken", day: -7, n: 4 }], { species: "phoenix" })).toEqual([]);
  expect(met([{ species: "phoenix", day: -7, n: 4 }])).toEqual([]);
});
