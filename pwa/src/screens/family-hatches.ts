// A family's settings that are over, added up by the book's own rates.
import { addOutcomes, lotOutcome } from "../book/rates.ts";
import { runs, type Standing } from "../book/standing.ts";
import type { Rate } from "../trade/proportions.ts";

export interface FamilyHatches {
  readonly settings: number;
  readonly set: number;
  /** Eggs in settings that still run. */
  readonly running: number;
  readonly fertility: Rate;
  readonly hatchOfFertile: Rate;
}

export function familyHatches(standing: Standing, family: string, now_ms: number): FamilyHatches {
  const all = [...standing.lots.values()].flatMap((lot) => {
    const setting =
      lot.family === family && lot.setting !== null ? standing.settings.get(lot.setting) : undefined;
    return setting ? [{ lot, setting, running: runs(setting) }] : [];
  });
  const over = all
    .filter(({ running }) => !running)
    .map(({ lot, setting }) => ({ lot, setting, outcome: lotOutcome(lot, setting, now_ms) }))
    .filter(({ outcome }) => outcome.sound);
  const { fertility, hatchOfFertile } = addOutcomes(over.map(({ outcome }) => outcome));
  const eggs = (lots: readonly { readonly lot: { readonly n: number } }[]) =>
    lots.reduce((sum, { lot }) => sum + lot.n, 0);
  return {
    settings: new Set(over.map(({ setting }) => setting.id)).size,
    set: eggs(over),
    running: eggs(all.filter(({ running }) => running)),
    fertility,
    hatchOfFertile,
  };
}
