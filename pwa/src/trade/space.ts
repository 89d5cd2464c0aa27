/**
 * How much room birds need by species and age: floor, feeder edge, drinker edge. Mirrors server/broodline/trade/brooding.py
 * over tests/vectors/brooding.json. A species whose figures were read nowhere gives undefined.
 */
import table from "@tables/brooding.json";
import { type Ends, endsOf, type Published } from "./ranges.ts";

interface SpaceRow {
  readonly from_day: number;
  readonly to_day?: number;
  readonly floor?: Published;
  readonly feeder?: Published;
  readonly drinker?: Published;
}

/**
 * Room for one bird: floor in square metres, feeder and drinker edge in centimetres; null where none was read.
 * nextDay: the age from which the ranges are others, or the sources end.
 */
export interface Space {
  readonly floorM2: Ends | null;
  readonly feederCm: Ends | null;
  readonly drinkerCm: Ends | null;
  readonly nextDay: number | null;
  readonly figures: readonly Published[];
}

const ROWS = new Map(Object.entries(table.space as unknown as Readonly<Record<string, readonly SpaceRow[]>>));
/** By definition of the foot and the inch (1959). */
const M2_IN_FT2 = 0.09290304;
const M2_IN_CM2 = 1e-4;
const CM_IN_INCH = 2.54;

/** The range of all sources that speak of birds of that age; undefined where none does. */
export function spaceAt(species: string, ageDays: number): Space | undefined {
  const now = roomAt(species, ageDays);
  if (now === undefined) return undefined;
  const edges = (ROWS.get(species) ?? [])
    .flatMap(({ from_day, to_day }) => [from_day, to_day ?? 0])
    .filter((day) => day > ageDays)
    .sort((a, b) => a - b);
  return { ...now, nextDay: edges.find((day) => isOther(now, roomAt(species, day))) ?? null };
}

function roomAt(species: string, ageDays: number): Space | undefined {
  const rows = ROWS.get(species) ?? [];
  const now = rows.filter(
    ({ from_day, to_day }) => from_day <= ageDays && ageDays < (to_day ?? Number.POSITIVE_INFINITY),
  );
  if (now.length === 0) return undefined;
  const floor = now.flatMap((row) => row.floor ?? []);
  const feeder = now.flatMap((row) => row.feeder ?? []);
  const drinker = now.flatMap((row) => row.drinker ?? []);
  return {
    floorM2: widest(floor),
    feederCm: widest(feeder),
    drinkerCm: widest(drinker),
    nextDay: null,
    figures: [...floor, ...feeder, ...drinker],
  };
}

function isOther(one: Space, other: Space | undefined): boolean {
  if (other === undefined) return true;
  const parts = ["floorM2", "feederCm", "drinkerCm"] as const;
  return parts.some((part) => one[part]?.join() !== other[part]?.join());
}

function widest(figures: readonly Published[]): Ends | null {
  const ends = figures.flatMap((figure) => endsOf(figure).map((end) => end * factor(figure.unit)));
  return ends.length === 0 ? null : [Math.min(...ends), Math.max(...ends)];
}

function factor(unit: string): number {
  if (unit.startsWith("ft²")) return M2_IN_FT2;
  return unit.startsWith("cm²") ? M2_IN_CM2 : CM_IN_INCH;
}
