// The figures of pens, from the server's table of matings: the same as the server's own, for pens put together by hand.
import { type Mating, type PairingPen, type PairingReport, pairKey } from "../state/pairing-report.ts";

/**
 * mean, over: of the pen's chicks, each cock and hen by its share, all alike where none is told. overError: how far over may be off at most, null where it is
 * exact. worst: the greatest inbreeding any mating may bring.
 */
export interface PenFigures {
  readonly mean: number;
  readonly worst: number;
  readonly over: number;
  readonly overError: number | null;
  readonly known: boolean;
  readonly cautions: readonly string[];
}

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
  const whole = found.reduce((sum, { weight }) => sum + weight, 0);
  const mean = (of: (one: Mating) => number) =>
    found.reduce((sum, { mating, weight }) => sum + of(mating) * weight, 0) / whole;
  return {
    mean: mean((one) => one.inbreeding),
    worst: Math.max(...matings.map((one) => one.high)),
    over: mean((one) => one.over),
    overError: mean((one) => one.overError ?? 0) || null,
    known: matings.every((one) => one.known),
    cautions: [...new Set(matings.flatMap((one) => [...one.why, ...one.cautions]))],
  };
}

/** Mean inbreeding over all pens, each hen counting alike; null for none. */
export function meanOfPens(table: PairingReport["table"], pens: readonly PairingPen[]): number | null {
  let sum = 0;
  let hens = 0;
  for (const pen of pens) {
    const told = penFigures(table, pen);
    if (told) {
      sum += told.mean * pen.dams.length;
      hens += pen.dams.length;
    }
  }
  return hens > 0 ? sum / hens : null;
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
