/**
 * k of n with its interval, and the difference of two such: Wilson (1927) 95 % interval and Newcombe (1998b) method
 * 10, both without continuity correction. Mirrors server/broodline/trade/proportions.py over
 * tests/vectors/proportions.json. Numbers are not rounded.
 */

export const Z_95 = 1.959963984540054;

/**
 * k of n, as reports write it. rate, low, high: shares of 1 with the 95 % interval, null where n is 0 or the counts
 * do not fit. basis: how the denominator was judged. open: up to so many more or fewer, from moves whose family is
 * not known. so_far: the setting still runs.
 */
export interface Rate {
  readonly k: number;
  readonly n: number;
  readonly rate: number | null;
  readonly low: number | null;
  readonly high: number | null;
  readonly basis?: "opened" | "candled" | "mixed";
  readonly open?: number;
  readonly so_far?: true;
}

/** What a rate says beside its figures; `sound` false: the counts contradict each other. */
export interface RateWords {
  readonly sound?: boolean;
  readonly basis?: Rate["basis"] | null;
  readonly open?: number;
  readonly soFar?: boolean;
}

/** First share minus second, with its 95 % interval. */
export interface Difference {
  readonly difference: number;
  readonly low: number;
  readonly high: number;
}

/** The Wilson 95 % interval of k in n, 0 <= k <= n, n >= 1, as shares of 1. Throws RangeError otherwise. */
export function wilson(k: number, n: number): readonly [low: number, high: number] {
  if (!(k >= 0 && k <= n && n >= 1)) throw new RangeError(`${k} of ${n} is no share`);
  const share = k / n;
  const spread = (Z_95 * Z_95) / n;
  const middle = (share + spread / 2) / (1 + spread);
  const half = (Z_95 * Math.sqrt((share * (1 - share)) / n + spread / (4 * n))) / (1 + spread);
  return [k === 0 ? 0 : middle - half, k === n ? 1 : middle + half];
}

/** The rate of k in n. Where the counts are not sound (below zero, k over n) or n is 0, only k and n stand. */
export function rateOf(k: number, n: number, words: RateWords = {}): Rate {
  const { sound = true, basis, open = 0, soFar = false } = words;
  const beside = {
    ...(basis ? { basis } : {}),
    ...(open === 0 ? {} : { open }),
    ...(soFar ? { so_far: true as const } : {}),
  };
  if (!sound || n <= 0 || k < 0 || k > n) return { k, n, rate: null, low: null, high: null, ...beside };
  const [low, high] = wilson(k, n);
  return { k, n, rate: k / n, low, high, ...beside };
}

/** k1/n1 - k2/n2 with Newcombe's interval (Stat. Med. 17:873-890, method 10). Throws RangeError as `wilson`. */
export function differenceNewcombe(k1: number, n1: number, k2: number, n2: number): Difference {
  const [low1, high1] = wilson(k1, n1);
  const [low2, high2] = wilson(k2, n2);
  const p1 = k1 / n1;
  const p2 = k2 / n2;
  const below = Math.hypot(p1 - low1, high2 - p2);
  const above = Math.hypot(high1 - p1, p2 - low2);
  return { difference: p1 - p2, low: p1 - p2 - below, high: p1 - p2 + above };
}
