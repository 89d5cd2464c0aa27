import { describe, expect, it } from "vitest";
import { fold } from "../../../pwa/src/book/fold.ts";
import { hatchSoFar } from "../../../pwa/src/book/hatch-looks.ts";
import { entriesOf, idOf, written } from "./entries-of.ts";

const SET = Date.UTC(2026, 2, 1, 8);
const HOUR = 3_600_000;
const LOTS = ["01950000-0000-7000-9000-000000000001", "01950000-0000-7000-9000-000000000002"] as const;

/** A setting of two lots of ten, with what happened so many hours after it was set. */
function hatchOf(happened: readonly (readonly [hours: number, kind: string, body: object])[]) {
  const lots = LOTS.map((lot) => ({ lot, family: idOf(2), n: 10 }));
  const standing = fold(
    entriesOf([
      written(1, "place", { name: "Loft box", role: "incubator" }, SET),
      written(2, "family", { name: "Rowan", species: "chicken", breed: "Sussex" }, SET),
      written(
        3,
        "set",
        { place: idOf(1), species: "chicken", set_at: new Date(SET).toISOString(), lots },
        SET,
      ),
      ...happened.map(([hours, kind, body], i) =>
        written(10 + i, kind, kind === "looked" ? { setting: idOf(3), ...body } : body, SET + hours * HOUR),
      ),
    ]),
  );
  const setting = standing.settings.get(idOf(3));
  if (!setting) throw new Error("no setting");
  return hatchSoFar(
    setting,
    LOTS.flatMap((lot) => standing.lots.get(lot) ?? []),
  );
}

const out = (lot: string, n: number) => ({ moves: [{ lot, from: "set", to: "hatched", n }], why: "hatch" });
const pips = (lot: string, pipped: number, day = 20) => ({ lot, what: "hatch", day, pipped });
const none = (lot: string, day: number) => ({ lot, what: "hatch", day, none: true });
const hoursOf = (ms: number | null) => (ms === null ? null : (ms - SET) / HOUR);

describe("a hatch so far", () => {
  it("draws what is written within half an hour into one look, whose time is that of its last", () => {
    const found = hatchOf([
      [500, "moved", out(LOTS[0], 2)],
      [500.25, "moved", out(LOTS[1], 1)],
      [500.5, "moved", out(LOTS[0], 1)],
      [500.6, "moved", out(LOTS[0], 4)],
    ]);
    expect(found.looks.map((look) => [hoursOf(look.atMs), look.out])).toEqual([
      [500.5, 4],
      [500.6, 4],
    ]);
    expect(found.looks[0]?.byLot).toEqual(
      new Map([
        [LOTS[0], 3],
        [LOTS[1], 1],
      ]),
    );
    expect([hoursOf(found.firstOutMs), hoursOf(found.lastOutMs)]).toEqual([500.5, 500.6]);
  });

  it("keeps pips apart from chicks, and takes off those that came out since", () => {
    const found = hatchOf([
      [480, "looked", pips(LOTS[0], 3)],
      [480.1, "looked", pips(LOTS[1], 1)],
      [490, "moved", out(LOTS[0], 2)],
    ]);
    expect(hoursOf(found.firstPipMs)).toBe(480);
    expect(found.pippedNow).toBe(2);
    expect(found.looks.map((look) => [look.pipped, look.out])).toEqual([
      [4, 0],
      [0, 2],
    ]);
  });

  it("tells weak and helped chicks of each look, which are of those out", () => {
    const found = hatchOf([
      [500, "moved", out(LOTS[0], 2)],
      [500.1, "moved", { ...out(LOTS[0], 3), weak: true }],
      [500.2, "moved", { ...out(LOTS[1], 1), helped: true }],
      [510, "moved", out(LOTS[1], 1)],
    ]);
    expect(found.looks.map((look) => [look.out, look.weak, look.helped])).toEqual([
      [6, 3, 1],
      [1, 0, 0],
    ]);
  });

  it("knows an egg that pipped after others came out, on the same day, for one that keeps the lid shut", () => {
    const found = hatchOf([
      [492, "looked", pips(LOTS[0], 3)],
      [492.1, "moved", out(LOTS[0], 2)],
      [496, "moved", out(LOTS[0], 6)],
      [496.1, "looked", pips(LOTS[0], 1)],
    ]);
    expect(found.pippedNow).toBe(1);
  });

  it("goes by the order of writing where a whole look was given one time", () => {
    const before = hatchOf([
      [492, "looked", pips(LOTS[0], 2)],
      [492, "moved", out(LOTS[0], 1)],
      [492, "looked", pips(LOTS[0], 1)],
    ]);
    expect(before.pippedNow).toBe(2);
    const after = hatchOf([
      [492, "moved", out(LOTS[0], 1)],
      [492, "looked", pips(LOTS[0], 2)],
    ]);
    expect(after.pippedNow).toBe(2);
  });

  // Worked out by hand; day 21 begins 504 hours after setting.
  it("forgets no pipped egg when the day of incubation turns, whether or not more is seen after it", () => {
    const before = [
      [501, "looked", pips(LOTS[0], 4)],
      [501.1, "moved", out(LOTS[0], 1)],
    ] as const;
    expect(hatchOf(before).pippedNow).toBe(3);
    expect(hatchOf([...before, [503.9, "looked", none(LOTS[0], 20)]]).pippedNow).toBe(3);
    expect(hatchOf([...before, [507, "looked", none(LOTS[0], 21)]]).pippedNow).toBe(3);
    expect(hatchOf([...before, [503.9, "looked", pips(LOTS[0], 1)]]).pippedNow).toBe(4);
    expect(hatchOf([...before, [507, "looked", pips(LOTS[0], 1, 21)]]).pippedNow).toBe(4);
    expect(hatchOf([...before, [507, "moved", out(LOTS[0], 2)]]).pippedNow).toBe(1);
    expect(hatchOf([...before, [530, "looked", none(LOTS[1], 22)]]).pippedNow).toBe(3);
  });

  it("lets a pipped egg go that died in its shell, and holds no more than are in the shell", () => {
    const opened = { lot: LOTS[0], n: 1 };
    const dead = [
      { ...opened, from: "set", to: "unhatched" },
      { ...opened, from: "unhatched", to: "dead_external_pip" },
    ];
    const seen = [501, "looked", pips(LOTS[0], 2)] as const;
    expect(hatchOf([seen, [530, "moved", { moves: dead, why: "opened" }]]).pippedNow).toBe(1);
    const gone = (n: number) => ({ moves: [{ lot: LOTS[0], from: "set", to: "unhatched", n }] });
    expect(hatchOf([seen, [530, "moved", gone(9)]]).pippedNow).toBe(1);
    expect(hatchOf([seen, [530, "moved", gone(10)]]).pippedNow).toBe(0);
    // Ten eggs: of 7 and 6 pips of two phones no more than ten can be meant, and after 4 chicks no more than six.
    const twice = hatchOf([
      [501, "looked", pips(LOTS[0], 7)],
      [502, "looked", pips(LOTS[0], 6)],
      [503, "moved", out(LOTS[0], 4)],
    ]);
    expect(twice.looks.map((look) => look.pipped)).toEqual([7, 3, 0]);
    expect(twice.pippedNow).toBe(6);
  });

  it("takes a chick of unknown family off the eggs pipped before it, not off those that pip after", () => {
    const among = { moves: [{ among: [...LOTS], from: "set", to: "hatched", n: 2 }], why: "hatch" };
    const one = [500, "looked", pips(LOTS[0], 1)] as const;
    expect(hatchOf([one, [501, "moved", among]]).pippedNow).toBe(0);
    expect(hatchOf([one, [501, "moved", among], [508, "looked", pips(LOTS[1], 3, 21)]]).pippedNow).toBe(3);
    // A chick of one lot leaves the other's pipped egg where it is.
    expect(hatchOf([one, [501, "moved", out(LOTS[1], 4)]]).pippedNow).toBe(1);
  });

  it("counts chicks of unknown family, and says nothing where nobody looked", () => {
    const among = { moves: [{ among: [...LOTS], from: "set", to: "hatched", n: 2 }], why: "hatch" };
    const found = hatchOf([[505, "moved", among]]);
    expect([found.looks[0]?.unknown, found.looks[0]?.out]).toEqual([2, 2]);
    const nothing = hatchOf([]);
    expect(nothing).toEqual({ looks: [], firstPipMs: null, firstOutMs: null, lastOutMs: null, pippedNow: 0 });
  });
});
