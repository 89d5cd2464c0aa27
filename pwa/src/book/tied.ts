/**
 * Lots that chicks of unknown family tie together: of one of them a chick hatched or is gone, nobody knows which. What
 * became of it is true of these lots taken together, and of none of them alone. Mirrors
 * server/broodline/book/tied.py over tests/vectors/tied.json.
 */
import { CHICK_STAGES, MISSING } from "./stages.ts";
import type { Lot, Move, Stages, Standing } from "./standing.ts";
import { overdrawn } from "./tied-sets.ts";

const LIVING = ["hatched", "brooding", "growing", "flock"];
const LOST = ["died", "culled", MISSING];

/** lots: in the order of their setting. among: the moves of chicks that tie them, in time; empty for a lot alone. */
export interface Tied {
  readonly lots: readonly Lot[];
  readonly among: readonly Move[];
}

/** All that is known of their eggs and chicks. */
export const movesOf = ({ lots, among }: Tied): Move[] => [...lots.flatMap(({ moves }) => moves), ...among];

/** How many of them are in each stage, whosever they are. */
export function stagesOf({ lots, among }: Tied): Stages {
  const found = new Map<string, number>();
  const put = (stage: string, n: number) => found.set(stage, (found.get(stage) ?? 0) + n);
  for (const { stages } of lots) for (const [stage, n] of stages) put(stage, n);
  for (const { source, target, n } of among) {
    put(source, -n);
    put(target, n);
  }
  return found;
}

/**
 * Whether no stage holds less than nothing, in any of the lots or in some or all of them together: only then a figure can
 * be told of them. What one lot lacks no other makes good.
 */
export const addsUp = (tied: Tied): boolean =>
  [stagesOf(tied), ...tied.lots.map(({ stages }) => stages)].every(isWhole) &&
  overdrawn(tied.lots, tied.among).length === 0;

/** Whether a figure can be told of one of them: its own counts can be, and no more are gone of unknown family than it and some of the others had. */
export const canBe = (lot: Lot, { lots, among }: Tied): boolean =>
  isWhole(lot.stages) && !overdrawn(lots, among).some((some) => some.has(lot.id));

const isWhole = (stages: Stages) => Math.min(0, ...stages.values()) >= 0;

/** The lots tied to this one, itself among them. */
export function tiedTo({ settings, lots }: Standing, lot: Lot): Tied {
  const setting = lot.setting === null ? undefined : settings.get(lot.setting);
  const own = (setting?.lots ?? []).flatMap((name) => lots.get(name) ?? []);
  const every = tiedGroups(own, setting?.among ?? []);
  return every.find((one) => one.lots.includes(lot)) ?? { lots: [lot], among: [] };
}

/** All lots of a setting, those together that moves of chicks among several tie. */
export function tiedGroups(lots: readonly Lot[], among: readonly Move[]): Tied[] {
  const groupOf = new Map(lots.map(({ id }) => [id, new Set([id])]));
  const ofChicks = among.filter(
    ({ source, target }) => CHICK_STAGES.includes(source) || CHICK_STAGES.includes(target),
  );
  for (const move of ofChicks) {
    const together = new Set(move.among.flatMap((name) => [...(groupOf.get(name) ?? [])]));
    for (const name of together) groupOf.set(name, together);
  }
  return [...new Set(groupOf.values())].map((group) => ({
    lots: lots.filter(({ id }) => group.has(id)),
    among: ofChicks.filter((move) => move.among.every((name) => group.has(name))),
  }));
}

/** Losses of which this lot may have had its share: died, culled or missing, not known whose. */
export function maybeLost(lot: Lot, { among }: Tied): Move[] {
  return among.filter((move) => move.among.includes(lot.id) && isLoss(move.source, move.target));
}

/** Up to how many more of this lot are gone: those lost, without as many as were found again; at most all it has. */
export function mostLost(lot: Lot, { among }: Tied): number {
  const own = among.filter((move) => move.among.includes(lot.id));
  const lost = own.filter(({ source, target }) => isLoss(source, target));
  const found = own.filter(({ source, target }) => isLoss(target, source));
  const sum = (moves: readonly Move[]) => moves.reduce((n, move) => n + move.n, 0);
  const alive = LIVING.reduce((n, stage) => n + Math.max(0, lot.stages.get(stage) ?? 0), 0);
  return Math.max(0, Math.min(sum(lost) - sum(found), alive));
}

const isLoss = (source: string, target: string) => LIVING.includes(source) && LOST.includes(target);
