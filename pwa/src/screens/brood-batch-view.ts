// What the page of one batch of chicks is made of. Pure.
import { speciesOf } from "../book/brood-course.ts";
import { hatchedMs, wholeDays } from "../book/hatch-day.ts";
import { CHICK_STAGES } from "../book/stages.ts";
import { inStage, type Lot, type Standing } from "../book/standing.ts";
import { batchNames } from "./names.ts";

/** hatched: all chicks there ever were of it, the missing among them. */
export interface Batch {
  readonly lot: Lot;
  readonly name: string;
  readonly species: string;
  readonly hatched: number;
  readonly bornMs: number | null;
  readonly ageDays: number | null;
}

/** Null for a batch the phone does not know, or of which no chick hatched. */
export function batchOf(standing: Standing, id: string, nowMs: number): Batch | null {
  const lot = standing.lots.get(id);
  if (lot === undefined) return null;
  const hatched = CHICK_STAGES.reduce((sum, stage) => sum + Math.max(0, inStage(lot, stage)), lot.missing);
  if (hatched === 0) return null;
  const beside = lot.setting === null ? [lot.id] : (standing.settings.get(lot.setting)?.lots ?? [lot.id]);
  const names = batchNames(
    standing,
    beside.flatMap((one) => standing.lots.get(one) ?? []),
  );
  const bornMs = hatchedMs(standing, lot);
  const ageDays = bornMs === null ? null : Math.max(0, wholeDays(bornMs, nowMs));
  return { lot, name: names.get(id) ?? "", species: speciesOf(standing, lot), hatched, bornMs, ageDays };
}
