// How the eggs of a strip are laid out: standing ones first, those taken out lying in a second row, five by five.
import type { EggShape } from "./egg.tsx";

export interface EggCount {
  readonly shape: EggShape;
  readonly n: number;
}

export interface EggGroup {
  readonly eggs: readonly EggShape[];
  /** The running number of the last egg of the group, printed beside it. */
  readonly upTo: number;
}

/** Spreads counts into groups of five, numbered through. Counts below one are left out. */
export function groupEggs(counts: readonly EggCount[], size = 5): EggGroup[] {
  const all = counts.flatMap(({ shape, n }) =>
    Array.from({ length: Math.max(0, Math.floor(n)) }, () => shape),
  );
  const groups: EggGroup[] = [];
  for (let start = 0; start < all.length; start += size) {
    const eggs = all.slice(start, start + size);
    groups.push({ eggs, upTo: start + eggs.length });
  }
  return groups;
}
