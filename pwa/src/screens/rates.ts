// Rates of a batch as far as they are known on this phone: the rules of the book's own report, with Wilson intervals.

import { CHICK_STAGES } from "../book/stages.ts";
import type { Lot, Standing } from "../book/standing.ts";
import { runs, seenByDay } from "../book/standing.ts";
import { type Rate, rateOf } from "../trade/proportions.ts";

export interface Counts {
  readonly k: number;
  readonly n: number;
}

export interface BatchCounts {
  readonly fertility: Counts;
  readonly hatchOfSet: Counts;
  readonly hatchOfFertile: Counts;
  /** How fertile was told: by candling, or by opening what came out. */
  readonly basis: "candled" | "opened" | null;
}

const OPENED = ["infertile", "dead_early", "dead_mid", "dead_late", "dead_internal_pip", "dead_external_pip"];

/** What the rates of one batch stand on. */
export function batchCounts(lot: Lot): BatchCounts {
  const n = (...stages: string[]) => stages.reduce((sum, stage) => sum + (lot.stages.get(stage) ?? 0), 0);
  const hatched = n(...CHICK_STAGES) + lot.missing;
  const days = [...seenByDay(lot, "candled").values()];
  const looked = lot.looks.some((look) => look.what === "candled");
  const mostLive = Math.max(0, ...days.map((day) => day.live));
  const unjudged = Math.max(0, n("set") - mostLive);
  const examined = lot.n - n("cracked", "rotten", "taken") - (n("unaccounted") - lot.missing) - unjudged;
  const fertile = examined - n("clear", "infertile");
  const known = isJudged(lot, looked, n);
  const basis = n(...OPENED) > 0 && n("clear") === 0 ? "opened" : "candled";
  return {
    fertility: known ? { k: fertile, n: examined } : { k: 0, n: 0 },
    hatchOfSet: { k: hatched, n: lot.n },
    hatchOfFertile: known ? { k: hatched, n: fertile } : { k: 0, n: 0 },
    basis: known && examined > 0 ? basis : null,
  };
}

function isJudged(lot: Lot, looked: boolean, n: (...stages: string[]) => number): boolean {
  if (looked) return true;
  if (n("set") > 0) return false;
  const candled = lot.moves.some(
    (move) =>
      ["set", "locked"].includes(move.source) && ["clear", "blood_ring", "quitter"].includes(move.target),
  );
  return candled || n("set", "locked", "unhatched") === 0;
}

/** Counts added up, as a rate; nothing is said where a count cannot be. */
export function summed(parts: readonly Counts[]): Rate {
  const k = parts.reduce((sum, part) => sum + part.k, 0);
  const n = parts.reduce((sum, part) => sum + part.n, 0);
  return k < 0 || k > n ? { k, n, rate: null, low: null, high: null } : rateOf(k, n);
}

export interface FamilyRecord {
  readonly settings: number;
  readonly set: number;
  /** Eggs in settings that still run. */
  readonly running: number;
  readonly fertility: Rate;
  readonly hatchOfFertile: Rate;
}

/** A family's finished settings, added up. */
export function familyRecord(standing: Standing, family: string): FamilyRecord {
  const all = [...standing.lots.values()].filter((lot) => lot.family === family && lot.setting !== null);
  const isRunning = (lot: Lot) => {
    const setting = standing.settings.get(lot.setting ?? "");
    return setting !== undefined && runs(setting);
  };
  const whole = (lot: Lot) => [...lot.stages.values()].every((n) => n >= 0);
  const over = all.filter((lot) => !isRunning(lot) && whole(lot));
  const counts = over.map(batchCounts);
  return {
    settings: new Set(over.map((lot) => lot.setting)).size,
    set: over.reduce((sum, lot) => sum + lot.n, 0),
    running: all.filter(isRunning).reduce((sum, lot) => sum + lot.n, 0),
    fertility: summed(counts.map((one) => one.fertility)),
    hatchOfFertile: summed(counts.map((one) => one.hatchOfFertile)),
  };
}
