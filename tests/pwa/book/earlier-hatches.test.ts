import { describe, expect, it } from "vitest";
import { earlierHatches, firstSeen, spreadOf } from "../../../pwa/src/book/earlier-hatches.ts";
import { fold } from "../../../pwa/src/book/fold.ts";
import { entriesOf, idOf, written } from "./entries-of.ts";

const SET = Date.UTC(2026, 2, 1, 8);
const DAY = 86_400_000;
const lotOf = (n: number) => `01950000-0000-7000-9000-${String(n).padStart(12, "0")}`;

/** Hatches set so many days before the one in question, with the days of their first pip and chick. */
const HATCHES = [
  { daysAgo: 0, species: "chicken", place: 1, family: 5, pip: 20.25, out: null },
  { daysAgo: 40, species: "chicken", place: 1, family: 5, pip: 19.5, out: 20.5 },
  { daysAgo: 30, species: "chicken", place: 2, family: 5, pip: 20, out: null },
  { daysAgo: 400, species: "chicken", place: 1, family: 6, pip: null, out: 21.5 },
  { daysAgo: 50, species: "chicken", place: 1, family: 6, pip: null, out: null },
  { daysAgo: 60, species: "duck", place: 1, family: 5, pip: 27, out: 28 },
  { daysAgo: -10, species: "chicken", place: 1, family: 5, pip: 20, out: 21 },
] as const;

function book() {
  const keep = (id: number, kind: string, body: object) => written(id, kind, body, SET - 500 * DAY);
  return fold(
    entriesOf([
      keep(1, "place", { name: "Loft box", role: "incubator" }),
      keep(2, "place", { name: "Shed", role: "incubator" }),
      keep(5, "family", { name: "Rowan", species: "chicken", breed: "Sussex" }),
      keep(6, "family", { name: "Hazel", species: "chicken", breed: "Sussex" }),
      ...HATCHES.flatMap(({ daysAgo, species, place, family, pip, out }, i) => {
        const at = SET - daysAgo * DAY;
        const lots = [{ lot: lotOf(i), family: idOf(family), n: 10 }];
        const moves = [{ lot: lotOf(i), from: "set", to: "hatched", n: 1 }];
        const set_at = new Date(at).toISOString();
        return [
          written(10 + i, "set", { place: idOf(place), species, set_at, lots }, at),
          ...(pip === null
            ? []
            : [
                written(
                  100 + i,
                  "looked",
                  { setting: idOf(10 + i), lot: lotOf(i), what: "hatch", day: 20, pipped: 1 },
                  at + pip * DAY,
                ),
              ]),
          ...(out === null ? [] : [written(200 + i, "moved", { moves, why: "hatch" }, at + out * DAY)]),
        ];
      }),
    ]),
  );
}

describe("a hatch beside the others here", () => {
  const standing = book();
  const setting = standing.settings.get(idOf(10));
  if (!setting) throw new Error("no setting");

  it("tells the first pip and the first chick in days since setting", () => {
    expect(firstSeen(standing, setting)).toMatchObject({ pipDays: 20.25, outDays: null });
  });

  it("is set beside earlier ones of its species in which something was seen, its own machine first", () => {
    const found = earlierHatches(standing, setting);
    expect(
      found.map(({ setting: { id }, pipDays, outDays, families }) => [id, pipDays, outDays, families]),
    ).toEqual([
      [idOf(11), 19.5, 20.5, [idOf(5)]],
      [idOf(13), null, 21.5, []],
      [idOf(12), 20, null, [idOf(5)]],
    ]);
  });

  it("is spread over the lowest, the middle and the highest", () => {
    expect(spreadOf([20, null, 19.5, 21])).toEqual([19.5, 20, 21]);
    expect(spreadOf([20, 19])).toEqual([19, 19.5, 20]);
    expect(spreadOf([20.5])).toEqual([20.5, 20.5, 20.5]);
    expect(spreadOf([null])).toBeNull();
  });
});
