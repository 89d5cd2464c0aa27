/** Deaths of young in a place within the last day, without those of a cause that takes several at once. */
import { TOGETHER } from "../trade/losses.ts";
import { DAY_MS } from "./moments.ts";
import type { Lot, Move, Standing } from "./standing.ts";
import { maybeLost, tiedTo } from "./tied.ts";

const LIVING = ["hatched", "brooding", "growing"];

/** Whether chicks died by this move, as far as chance has a part in it. */
export function isDeath({ source, target, cause }: Move): boolean {
  return target === "died" && LIVING.includes(source) && !TOGETHER.includes(cause ?? "");
}

/** How many of these batches died within 24 hours before now; those of whom nobody knows whose they were count once. */
export function deathsWithinADay(standing: Standing, lots: readonly Lot[], nowMs: number): number {
  const perhaps = new Set(lots.flatMap((lot) => maybeLost(lot, tiedTo(standing, lot))));
  return [...lots.flatMap(({ moves }) => moves), ...perhaps]
    .filter((move) => isDeath(move) && move.atMs > nowMs - DAY_MS && move.atMs <= nowMs)
    .reduce((sum, { n }) => sum + n, 0);
}
