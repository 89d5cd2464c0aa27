import { describe, expect, it } from "vitest";
import { leftWithinSevenDays } from "../../../pwa/src/book/first-week.ts";
import { fold } from "../../../pwa/src/book/fold.ts";
import { addOutcomes, lotOutcome, type Outcome, settingOutcome } from "../../../pwa/src/book/rates.ts";
import type { Move } from "../../../pwa/src/book/standing.ts";
import { readVectors } from "../vectors.ts";
import { entriesOf } from "./entries-of.ts";

interface RatesVectors {
  cases: { name: string; in: { now: string; entries: unknown[] }; out: unknown }[];
}

function told(outcome: Outcome, left: ReadonlyMap<string, number>): unknown {
  const { fertility, hatchOfSet, hatchOfFertile, alive7d } = outcome;
  const share = ({ k, n }: { k: number; n: number }) => [k, n];
  return {
    fertility: [...share(fertility), fertility.basis ?? null],
    hatch_of_set: share(hatchOfSet),
    hatch_of_fertile: share(hatchOfFertile),
    alive_7d: share(alive7d),
    open: [fertility, hatchOfSet, hatchOfFertile, alive7d].map((rate) => rate.open ?? 0),
    deaths: Object.fromEntries(Object.entries(outcome.deaths).filter(([, n]) => n !== 0)),
    sound: outcome.sound,
    so_far: hatchOfSet.so_far ?? false,
    left: Object.fromEntries(left),
  };
}

describe("rates worked out by hand are the server's", () => {
  const { cases } = readVectors("rates") as RatesVectors;

  it.each(cases)("$name", ({ in: asked, out }) => {
    const nowMs = Date.parse(asked.now);
    const standing = fold(entriesOf(asked.entries));
    const [setting] = standing.settings.values();
    if (setting === undefined) throw new Error("no setting");
    const lots = setting.lots.flatMap((name) => standing.lots.get(name) ?? []);
    const outcomes = lots.map((lot) => lotOutcome(lot, setting, nowMs));
    const left = (moves: readonly Move[]) => leftWithinSevenDays(moves, nowMs).left;
    const together = [...setting.among, ...lots.flatMap((lot) => lot.moves)];
    expect({
      lots: lots.map((lot) => told(lotOutcome(lot, setting, nowMs), left(lot.moves))),
      setting: told(settingOutcome(setting, lots, nowMs), left(together)),
      all: told(addOutcomes(outcomes), new Map()),
    }).toEqual(out);
  });
});
