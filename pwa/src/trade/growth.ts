/**
 * How even birds weighed on one day are. Mirrors that part of server/broodline/trade/growth.py over
 * tests/vectors/growth.json; curves are the server's.
 */
import table from "@tables/growth.json";

const WITHIN_PCT = table.even_within.value;

/** How near to its own mean a bird counts as even with its group, and who says so. */
export const EVEN_WITHIN = table.even_within;

/**
 * Of n birds: mean, standard deviation (of a sample, n - 1) and its percent. sdG, cvPct: null for one bird alone.
 * within: so many within 10 % of the mean.
 */
export interface Evenness {
  readonly n: number;
  readonly meanG: number;
  readonly sdG: number | null;
  readonly cvPct: number | null;
  readonly within: number;
}

/** Null where no bird was weighed. */
export function evenness(massesG: readonly number[]): Evenness | null {
  const n = massesG.length;
  if (n === 0) return null;
  const meanG = massesG.reduce((sum, mass) => sum + mass, 0) / n;
  const squares = massesG.reduce((sum, mass) => sum + (mass - meanG) ** 2, 0);
  const sdG = n > 1 ? Math.sqrt(squares / (n - 1)) : null;
  const [low, high] = evenLimits(meanG);
  return {
    n,
    meanG,
    sdG,
    cvPct: sdG === null || meanG <= 0 ? null : (100 * sdG) / meanG,
    within: massesG.filter((mass) => low <= mass && mass <= high).length,
  };
}

/** Between which weights a bird counts as even with its group. */
export function evenLimits(meanG: number): readonly [number, number] {
  return [(meanG * (100 - WITHIN_PCT)) / 100, (meanG * (100 + WITHIN_PCT)) / 100];
}
