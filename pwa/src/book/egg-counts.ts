/**
 * How many eggs of a lot count as examined, fertile, hatched, and what moves of unknown family add to a setting.
 * Mirrors server/broodline/reports/egg_counts.py.
 *
 *     hatched   chicks in any chick stage, and those missing since they hatched
 *     examined  eggs set, less cracked, rotten, removed and lost ones, less eggs in the setter nobody saw live
 *     fertile   examined, less clear and infertile
 *
 * Counts alone decide, never clocks. A stage this version does not know counts as missing.
 */
import { CHICK_STAGES, MISSING, STAGES } from "./stages.ts";
import { inStage, type Lot, type Move, type Stages, seenByDay } from "./standing.ts";

const CHICKS = new Set(CHICK_STAGES);
const KNOWN = new Set(STAGES);
const NOT_EXAMINED = new Set(["cracked", "rotten", "taken", MISSING]);
const NOT_FERTILE = new Set(["clear", "infertile"]);
const JUDGED_AT_CANDLING = ["clear", "blood_ring", "quitter"];

/** Eggs set, hatched of all set, examined, fertile of those, hatched of those; 0 where nobody has looked. */
export interface EggCounts {
  readonly eggs: number;
  readonly hatched: number;
  readonly examined: number;
  readonly fertile: number;
  readonly hatchedOfFertile: number;
}

/** By up to how much moves of unknown family may still change a lot's rates. */
export interface Beside {
  readonly fertility: number;
  readonly hatchOfSet: number;
  readonly hatchOfFertile: number;
  readonly alive7d: number;
}

/** The counts of one lot by its own moves and looks. */
export function countLot(lot: Lot): EggCounts {
  const stages = plainStages(lot.stages);
  const missing = missingOf(stages, lot.moves);
  const hatched = sumOver(stages, CHICKS) + missing;
  if (!isJudged(lot)) return { eggs: lot.n, hatched, examined: 0, fertile: 0, hatchedOfFertile: 0 };
  const examined = lot.n - sumOver(stages, NOT_EXAMINED) + missing - unseen(lot);
  const fertile = examined - sumOver(stages, NOT_FERTILE);
  return { eggs: lot.n, hatched, examined, fertile, hatchedOfFertile: hatched };
}

/** Whether somebody has looked into the eggs that count, so that the rates on examined have a denominator. */
export function isJudged(lot: Lot): boolean {
  if (lot.looks.some((look) => look.what === "candled")) return true;
  if (inStage(lot, "set") > 0) return false;
  const candled = lot.moves.some(
    ({ source, target }) => (source === "set" || source === "locked") && JUDGED_AT_CANDLING.includes(target),
  );
  return candled || (inStage(lot, "locked") <= 0 && inStage(lot, "unhatched") <= 0);
}

/**
 * What moves among several lots add to the sum of a setting's lots. They count towards examined only where every lot
 * they name is judged.
 */
export function countAmong(lots: readonly Lot[], among: readonly Move[]): EggCounts {
  const judged = lots.filter(isJudged);
  const settled = among.filter((move) => areAmong(move, judged));
  const spare = judged.reduce((sum, lot) => sum + unseen(lot), 0);
  const { hatched } = gains(lots, among, 0);
  const gain = gains(lots, settled, spare);
  const fertile = gain.examined - gain.notFertile;
  return { eggs: 0, hatched, examined: gain.examined, fertile, hatchedOfFertile: gain.hatched };
}

/** Up to how many eggs or chicks moves of unknown family may still change in each rate. */
export function countBeside(moves: readonly Move[]): Beside {
  let [fertility, hatchOfSet, hatchOfFertile, alive7d] = [0, 0, 0, 0];
  for (const { source: from, target: to, n } of moves) {
    const source = plain(from);
    const target = plain(to);
    const isLostChick =
      [source, target].every((stage) => CHICKS.has(stage) || stage === MISSING) &&
      source !== target &&
      (source === MISSING || target === MISSING);
    const isOtherSort =
      NOT_EXAMINED.has(source) !== NOT_EXAMINED.has(target) ||
      NOT_FERTILE.has(source) !== NOT_FERTILE.has(target);
    const changesFertile = isOtherSort && !isLostChick;
    const changesHatched = CHICKS.has(source) !== CHICKS.has(target) && !isLostChick;
    if (changesFertile) fertility += n;
    if (changesHatched) hatchOfSet += n;
    if (changesFertile || changesHatched) hatchOfFertile += n;
    if (CHICKS.has(source) || CHICKS.has(target)) alive7d += n;
  }
  return { fertility, hatchOfSet, hatchOfFertile, alive7d };
}

/** Whether every lot that a move names is one of these. */
export function areAmong(move: Move, lots: readonly Lot[]): boolean {
  return move.among.every((name) => lots.some((lot) => lot.id === name));
}

/** Eggs in the setter beyond the most that were seen live on one day of candling. */
function unseen(lot: Lot): number {
  const live = [...seenByDay(lot, "candled").values()].map((seen) => seen.live);
  return Math.max(0, inStage(lot, "set") - Math.max(0, ...live));
}

function plain(stage: string): string {
  return KNOWN.has(stage) ? stage : MISSING;
}

function plainStages(stages: Stages): Map<string, number> {
  const merged = new Map<string, number>();
  for (const [stage, n] of stages) add(merged, plain(stage), n);
  return merged;
}

function sumOver(stages: Stages, names: ReadonlySet<string>): number {
  let sum = 0;
  for (const name of names) sum += stages.get(name) ?? 0;
  return sum;
}

/** Chicks lost from sight and not found, at most what is unaccounted for. */
function missingOf(stages: Stages, moves: readonly Move[]): number {
  let lost = 0;
  for (const move of moves) {
    const source = plain(move.source);
    const target = plain(move.target);
    if (CHICKS.has(source) && target === MISSING) lost += move.n;
    else if (source === MISSING && CHICKS.has(target)) lost -= move.n;
  }
  return Math.max(0, Math.min(lost, stages.get(MISSING) ?? 0));
}

/** Chicks hatched, eggs examined, eggs not fertile that moves add. spare: eggs in the setter nobody saw live. */
function gains(
  lots: readonly Lot[],
  among: readonly Move[],
  spare: number,
): { hatched: number; examined: number; notFertile: number } {
  const before = new Map<string, number>();
  for (const lot of lots) for (const [stage, n] of lot.stages) add(before, plain(stage), n);
  const after = new Map(before);
  let outOfSetter = 0;
  for (const { source, target, n } of among) {
    add(after, plain(source), -n);
    add(after, plain(target), n);
    outOfSetter += n * (Number(source === "set") - Number(target === "set"));
  }
  const own = lots.flatMap((lot) => lot.moves);
  const missing = missingOf(after, [...own, ...among]) - missingOf(before, own);
  const gain = (names: ReadonlySet<string>) => sumOver(after, names) - sumOver(before, names);
  return {
    hatched: gain(CHICKS) + missing,
    examined: missing - gain(NOT_EXAMINED) + Math.min(spare, Math.max(0, outOfSetter)),
    notFertile: gain(NOT_FERTILE),
  };
}

function add(stages: Map<string, number>, stage: string, n: number): void {
  stages.set(stage, (stages.get(stage) ?? 0) + n);
}
