// A bird's forebears as places in a tree (sire, dam, sire's sire, ...), each with all that may have stood there.
import type { KinBird } from "../state/kin-report.ts";

export interface Candidate {
  readonly bird: string;
  readonly label: string;
  readonly chance: number;
}

/** side: the way from the bird, "sire dam" is its father's mother. unknown: the chance that nobody is known there. */
export interface Forebear {
  readonly side: "sire" | "dam";
  readonly candidates: readonly Candidate[];
  readonly unknown: number;
  /** Empty where nobody is known, and at the last generation. */
  readonly parents: readonly Forebear[];
}

const SURE = 1e-9;

/**
 * The places up to so many generations back. The chance at each place is exact: the sum over all that may have stood
 * before it. A place where nobody can be known is left out.
 */
export function forebears(birds: ReadonlyMap<string, KinBird>, of: string, generations: number): Forebear[] {
  return placesOf(birds, new Map([[of, 1]]), generations);
}

function placesOf(
  birds: ReadonlyMap<string, KinBird>,
  young: ReadonlyMap<string, number>,
  generations: number,
): Forebear[] {
  if (generations === 0) return [];
  return (["sire", "dam"] as const).flatMap((side) => {
    const chances = new Map<string, number>();
    let known = 0;
    for (const [bird, chance] of young) {
      for (const pair of birds.get(bird)?.parents ?? []) {
        const parent = pair[side];
        if (parent === null) continue;
        chances.set(parent, (chances.get(parent) ?? 0) + chance * pair.chance);
        known += chance * pair.chance;
      }
    }
    if (chances.size === 0) return [];
    const candidates = [...chances]
      .map(([bird, chance]) => ({ bird, label: birds.get(bird)?.label ?? "", chance }))
      .sort((a, b) => b.chance - a.chance || a.label.localeCompare(b.label));
    const unknown = 1 - known > SURE ? 1 - known : 0;
    return [{ side, candidates, unknown, parents: placesOf(birds, chances, generations - 1) }];
  });
}
