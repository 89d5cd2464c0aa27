// What the page of one batch of chicks is made of. Pure.
import { listed } from "../app/words/everywhere.ts";
import { speciesOf } from "../book/brood-course.ts";
import { goneBirds } from "../book/gone-birds.ts";
import { hatchedMs, wholeDays } from "../book/hatch-day.ts";
import { living } from "../book/marks.ts";
import { heldMs } from "../book/moments.ts";
import type { Problem } from "../book/problems.ts";
import { CHICK_STAGES } from "../book/stages.ts";
import { inStage, type Lot, type Move, type Standing } from "../book/standing.ts";
import { canBe, maybeLost, mostLost, movesOf, type Tied, tiedTo } from "../book/tied.ts";
import { localDate } from "../trade/calendar.ts";
import { batchName, batchNames } from "./names.ts";

/**
 * hatched: all chicks there ever were of it, the missing among them. alive: null where the counts cannot be; aliveLeast: were all gone of unknown family its own. tied: the
 * batches that chicks of unknown family tie to it, families: their names. perhaps: losses of which it may have had its share.
 */
export interface Batch {
  readonly lot: Lot;
  readonly tied: Tied;
  readonly families: string;
  readonly perhaps: readonly Move[];
  readonly alive: number | null;
  readonly aliveLeast: number | null;
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
  const tied = tiedTo(standing, lot);
  const gone = goneBirds(standing, localDate(heldMs(nowMs), standing.keeper.zone)).get(id) ?? [];
  const alive = canBe(lot, tied) ? Math.max(0, living(lot) - gone.length) : null;
  return {
    lot,
    tied,
    families: listed([...new Set(tied.lots.map((one) => batchName(standing, one)))]),
    perhaps: maybeLost(lot, tied),
    alive,
    aliveLeast: alive === null ? null : Math.max(0, alive - mostLost(lot, tied)),
    name: names.get(id) ?? "",
    species: speciesOf(standing, lot),
    hatched,
    bornMs,
    ageDays,
  };
}

/** What does not add up in what was set and moved of some batches. */
export function problemsOf(standing: Standing, lots: readonly Lot[]): Problem[] {
  const own = new Set(
    lots.flatMap((lot) => [lot.setting, ...movesOf(tiedTo(standing, lot)).map(({ entry }) => entry)]),
  );
  return standing.problems.filter(({ entry }) => entry !== null && own.has(entry));
}
