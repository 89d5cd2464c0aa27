import { describe, expect, it } from "vitest";
import { fold } from "../../../pwa/src/book/fold.ts";
import { addOutcomes, lotOutcome, type Outcome, settingOutcome } from "../../../pwa/src/book/rates.ts";
import { entriesOf, idOf, written } from "./entries-of.ts";

const DAY_MS = 86_400_000;
const SET_AT = Date.parse("2026-03-01T08:00:00Z");

type Written = { kind: string; body: object; day?: number };

const moved = (lot: string, from: string, to: string, n: number, day = 7): Written => {
  return { kind: "moved", body: { moves: [{ lot, from, to, n }] }, day };
};
const candled = (lot: string, live: number): Written => {
  return { kind: "looked", body: { setting: idOf(0), lot, what: "candled", day: 7, live } };
};

/** Two lots of 12 in one setting, and what was recorded for them. */
function outcomes(happened: readonly Written[], nowDay = 60): { lots: Outcome[]; whole: Outcome } {
  const lots = ["a", "b"].map((lot) => ({ lot, family: "f", n: 12 }));
  const set = { kind: "set", body: { place: "p", species: "chicken", set_at: "2026-03-01T08:00:00Z", lots } };
  const entries = [set, ...happened].map(({ kind, body, day = 0 }: Written, n) =>
    written(n, kind, body, SET_AT + day * DAY_MS),
  );
  const standing = fold(entriesOf(entries));
  const setting = standing.settings.get(idOf(0));
  if (setting === undefined) throw new Error("no setting");
  const both = setting.lots.flatMap((name) => standing.lots.get(name) ?? []);
  const nowMs = SET_AT + nowDay * DAY_MS;
  return {
    lots: both.map((lot) => lotOutcome(lot, setting, nowMs)),
    whole: settingOutcome(setting, both, nowMs),
  };
}

const shares = ({ fertility, hatchOfSet, hatchOfFertile }: Outcome) =>
  [fertility, hatchOfSet, hatchOfFertile].map(({ k, n, basis }) => [k, n, basis]);

describe("rates, worked out by hand", () => {
  it("a lot hatched: 12 set, 2 clear, 1 cracked, 7 hatched, 2 dead in the shell", () => {
    const a = [
      moved("a", "set", "clear", 2),
      moved("a", "set", "cracked", 1),
      moved("a", "set", "locked", 9, 18),
      moved("a", "locked", "hatched", 7, 21),
      moved("a", "locked", "unhatched", 2, 22),
    ];
    // Examined 11, fertile 9.
    expect(shares(outcomes(a).lots[0] as Outcome)).toEqual([
      [9, 11, "candled"],
      [7, 12, undefined],
      [7, 9, "candled"],
    ]);
    const opened = [
      ...a,
      moved("a", "unhatched", "dead_late", 2, 23),
      moved("a", "clear", "infertile", 2, 23),
    ];
    const [lot] = outcomes(opened).lots;
    expect(lot && shares(lot)[0]).toEqual([9, 11, "opened"]);
    expect(lot?.deaths).toEqual({
      early: 0,
      mid: 0,
      late: 2,
      internal_pip: 0,
      external_pip: 0,
      unopened: 0,
    });
  });

  it("nothing is known of eggs nobody looked into, and the seen ones count while others wait", () => {
    expect(outcomes([]).lots.map((lot) => lot.fertility.n)).toEqual([0, 0]);
    // 12 set, 2 taken out clear, 6 seen live, 4 left for the next evening: examined 8, fertile 6.
    const { lots, whole } = outcomes([moved("a", "set", "clear", 2), candled("a", 6)]);
    expect(lots.map((lot) => [lot.fertility.k, lot.fertility.n])).toEqual([
      [6, 8],
      [0, 0],
    ]);
    expect(whole.fertility).toMatchObject({ k: 6, n: 8, so_far: true });
  });

  it("a count below zero keeps its figures, has no rate and stays out of sums", () => {
    const { lots } = outcomes([moved("a", "set", "clear", 13), candled("a", 1), candled("b", 12)]);
    expect(lots[0]).toMatchObject({ sound: false, fertility: { rate: null, low: null } });
    expect(addOutcomes(lots)).toMatchObject({ fertility: { k: 12, n: 12 }, hatchOfSet: { n: 12 } });
  });

  it("eggs of unknown family count in the setting and stand beside each lot", () => {
    const among = { kind: "moved", body: { moves: [{ among: ["a", "b"], from: "set", to: "clear", n: 3 }] } };
    const { lots, whole } = outcomes([candled("a", 12), candled("b", 9), among]);
    expect(lots.map((lot) => lot.fertility.open)).toEqual([3, 3]);
    // 24 set, 3 of them clear; 21 still there were seen live.
    expect(whole.fertility).toMatchObject({ k: 21, n: 24 });
    expect(whole.fertility.open).toBeUndefined();
  });

  it("a chick counts for the first week once it is seven days old, to the millisecond", () => {
    const hatch = [moved("a", "set", "hatched", 10, 21), moved("a", "hatched", "died", 2, 23)];
    const [before] = outcomes(hatch, 28 - 1 / DAY_MS).lots;
    const [after] = outcomes(hatch, 28).lots;
    expect(before?.alive7d).toMatchObject({ k: 0, n: 0, rate: null });
    expect(after?.alive7d).toMatchObject({ k: 8, n: 10 });
  });

  it("a chick sold in its first week leaves the count, one sold later was alive", () => {
    const hatch = moved("a", "set", "hatched", 10, 21);
    const [early] = outcomes([hatch, moved("a", "hatched", "parted", 3, 24)]).lots;
    const [late] = outcomes([hatch, moved("a", "hatched", "parted", 3, 30)]).lots;
    expect([early?.alive7d.k, early?.alive7d.n]).toEqual([7, 7]);
    expect([late?.alive7d.k, late?.alive7d.n]).toEqual([10, 10]);
  });
});
