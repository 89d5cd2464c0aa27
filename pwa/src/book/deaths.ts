/** Deaths of young in a place within the last day, without those of a cause that takes several at once. */
import { TOGETHER } from "../trade/losses.ts";
import { DAY_MS } from "./moments.ts";
import type { Lot, Move } from "./standing.ts";

const LIVING = ["hatched", "brooding", "growing"];

/** Whether chicks died by this move, as far as chance has a part in it. */
export function isDeath({ source, target, cause }: Move): boolean {
  return target === "died" && LIVING.includes(source) && !TOGETHER.includes(cause ?? "");
}

/** How many of these batches died within 24 hours before now. */
export function deathsWithinADay(lots: readonly Lot[], nowMs: number): number {
  return lots
    .flatMap(({ moves }) => moves)
    .filter((move) => isDeath(move) && move.atMs > nowMs - DAY_MS && move.atMs <= nowMs)
    .reduce((sum, { n }) => sum + n, 0);
}
