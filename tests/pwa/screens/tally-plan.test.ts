import { describe, expect, it } from "vitest";
import { mayMove } from "../../../pwa/src/book/stages.ts";
import {
  answered,
  answerId,
  inHand,
  KEYS,
  leavesHand,
  OTHER_KEYS,
  onPile,
  restAnswer,
  stripOf,
  TALLIES,
  type TallyBatch,
} from "../../../pwa/src/screens/tally-plan.ts";

const batch = (stages: Record<string, number>, seen: Partial<TallyBatch> = {}): TallyBatch => ({
  lot: "a",
  n: 24,
  stages,
  live: 0,
  unsure: 0,
  pipped: 0,
  weak: 0,
  helped: 0,
  ...seen,
});

describe("eggs in hand", () => {
  it("at a candling are those in the machine that nobody judged today", () => {
    expect(inHand("candle", batch({ set: 22, clear: 2 }, { live: 8, unsure: 1 }))).toBe(13);
    expect(inHand("candle", batch({ set: 3 }, { live: 8 }))).toBe(0);
  });

  it("at lockdown are those still in the setter, at the hatch those in any shell", () => {
    const some = batch({ set: 2, locked: 16, hatched: 3 });
    expect(inHand("lockdown", some)).toBe(2);
    expect(inHand("hatch", some)).toBe(18);
  });

  it("at opening lie on piles; what is left in the machine did not hatch", () => {
    const some = batch({ locked: 1, unhatched: 2, clear: 3, hatched: 12 });
    expect(onPile(some, "unhatched")).toBe(3);
    expect(inHand("open", some)).toBe(6);
    expect(inHand("open", some, "clear")).toBe(3);
  });
});

describe("keys", () => {
  it("are six for each tally, with names and shapes of their own", () => {
    for (const what of TALLIES) {
      const keys = KEYS[what];
      expect(keys).toHaveLength(6);
      expect(new Set(keys.map((key) => key.id)).size).toBe(6);
      for (const key of [...keys, ...OTHER_KEYS[what]]) expect(answerId(key.answer)).toBe(key.id);
    }
  });

  it("write only moves the trade knows", () => {
    const from = { candle: "set", lockdown: "set", hatch: "locked", open: "unhatched" } as const;
    for (const what of TALLIES) {
      for (const { answer } of [...KEYS[what], ...OTHER_KEYS[what]]) {
        if (answer.does === "move")
          expect([what, answer.to, mayMove(from[what], answer.to)]).toEqual([what, answer.to, true]);
      }
    }
  });

  it("show how many had that answer so far", () => {
    const some = batch({ hatched: 3, brooding: 2, died: 1, clear: 4 }, { live: 8, weak: 1 });
    const n = (what: "candle" | "hatch", id: string) => {
      const key = KEYS[what].find((one) => one.id === id);
      return key ? answered(key, some) : null;
    };
    expect(n("candle", "live")).toBe(8);
    expect(n("candle", "clear")).toBe(4);
    expect(n("hatch", "hatched")).toBe(5);
    expect(n("hatch", "weak")).toBe(1);
    expect(n("hatch", "lost")).toBe(1);
  });
});

it("an egg leaves the hand with every answer but that it pipped and that nothing is new", () => {
  const stays = TALLIES.flatMap((what) =>
    [...KEYS[what], ...OTHER_KEYS[what]].filter(({ answer }) => !leavesHand(answer)).map(({ id }) => id),
  );
  expect(stays).toEqual(["pipped", "none"]);
});

describe("the rest", () => {
  it("is live at a candling, goes in at lockdown, and is infertile only among the clears", () => {
    expect(restAnswer("candle", "unhatched")).toEqual({ does: "look", sees: "live" });
    expect(restAnswer("lockdown", "unhatched")).toEqual({ does: "move", to: "locked" });
    expect(restAnswer("open", "clear")).toEqual({ does: "move", to: "infertile" });
    expect(restAnswer("open", "unhatched")).toBeNull();
  });
});

describe("the strip", () => {
  it("shows every egg of the batch once, whatever happened to it", () => {
    const some = batch(
      { set: 13, clear: 3, blood_ring: 1, quitter: 2, cracked: 1, taken: 2, unaccounted: 2 },
      { live: 8, unsure: 1 },
    );
    const { upright, out } = stripOf("candle", some);
    const sum = [...upright, ...out].reduce((total, count) => total + count.n, 0);
    expect(sum).toBe(24);
    expect(upright.map((count) => count.shape)).toEqual(["live", "unsure", "hand"]);
  });

  it("parts hatched eggs and keeps pipped ones among those in the shell", () => {
    const { upright } = stripOf("hatch", batch({ locked: 6, hatched: 10, clear: 8 }, { pipped: 9 }));
    expect(upright).toEqual([
      { shape: "hatched", n: 10 },
      { shape: "pipped", n: 6 },
    ]);
  });
});
