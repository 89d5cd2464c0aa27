// The figures of pens, from the server's table of matings: the same as the server's own, for pens put together by hand.
import {
  type Mating,
  type PairingPen,
  type PairingReport,
  type PensMean,
  pairKey,
} from "../state/pairing-report.ts";

/**
 * mean, over: of the chicks of its matings of which something is known, each cock and hen by its share, all alike where none
 * is told; null where nothing is known of any. overError: how far over may be off at most, null where it is exact. notKnown:
 * hens of whose matings nothing is known. worst: the greatest inbreeding any mating may bring.
 */
export interface PenFigures {
  readonly mean: number | null;
  readonly worst: number;
  readonly over: number | null;
  readonly overError: number | null;
  readonly known: boolean;
  readonly notKnown: number;
  readonly cautions: readonly string[];
}

/** Whether anything is known of a mating: forebears of both birds, or that they are kin. */
const isTold = ({ known, high }: Mating): boolean => known || high > 0;

/** Null where a pen has no cock or no hen. */
export function penFigures(table: PairingReport["table"], pen: PairingPen): PenFigures | null {
  const { shares = {} } = pen;
  const part = (bird: string) => shares[bird] ?? 1;
  const found = pen.sires.flatMap((sire) =>
    pen.dams.flatMap((dam): { mating: Mating; weight: number }[] => {
      const mating = table.get(pairKey(sire, dam));
      return mating ? [{ mating, weight: part(sire) * part(dam) }] : [];
    }),
  );
  if (found.length === 0) return null;
  const matings = found.map(({ mating }) => mating);
  const told = found.filter(({ mating }) => isTold(mating));
  const whole = told.reduce((sum, { weight }) => sum + weight, 0);
  const mean = (of: (one: Mating) => number) =>
    told.length === 0 ? null : told.reduce((sum, { mating, weight }) => sum + of(mating) * weight, 0) / whole;
  const toldHens = new Set(told.map(({ mating }) => mating.dam));
  return {
    mean: mean((one) => one.inbreeding),
    worst: Math.max(...matings.map((one) => one.high)),
    over: mean((one) => one.over),
    overError: mean((one) => one.overError ?? 0) || null,
    known: matings.every((one) => one.known),
    notKnown: pen.dams.filter((dam) => !toldHens.has(dam)).length,
    cautions: [...new Set(matings.flatMap((one) => [...one.why, ...one.cautions]))],
  };
}

/** Mean inbreeding over the hens of all pens of which something is known, each counting alike; null for no pen. */
export function meanOfPens(table: PairingReport["table"], pens: readonly PairingPen[]): PensMean | null {
  let sum = 0;
  let hens = 0;
  let of = 0;
  for (const pen of pens) {
    const told = penFigures(table, pen);
    if (told) {
      const n = pen.dams.length - told.notKnown;
      sum += (told.mean ?? 0) * n;
      hens += n;
      of += pen.dams.length;
    }
  }
  return of > 0 ? { mean: hens > 0 ? sum / hens : null, notKnown: { n: of - hens, of } } : null;
}

/** The pens after a bird went to another, or out of all (null); in a pen that changed all count alike. */
export function moved(
  pens: readonly PairingPen[],
  bird: string,
  isCock: boolean,
  to: number | null,
): PairingPen[] {
  const without = (birds: readonly string[]) => birds.filter((one) => one !== bird);
  return pens.map((pen, at) => {
    const sires = without(pen.sires);
    const dams = without(pen.dams);
    const stays = at !== to && sires.length + dams.length === pen.sires.length + pen.dams.length;
    if (stays) return pen;
    if (at !== to) return { sires, dams };
    return isCock ? { sires: [...sires, bird], dams } : { sires, dams: [...dams, bird] };
  });
}
