// What the pages of broods are made of: who is in a place, how old, and what the place is. Pure.

import { brood as words } from "../app/words/brood.ts";
import { listed } from "../app/words/everywhere.ts";
import { young } from "../app/words/species.ts";
import type { Place } from "../book/bodies.generated.ts";
import { speciesOf } from "../book/brood-course.ts";
import { hatchedMs, wholeDays } from "../book/hatch-day.ts";
import type { Lot, Stages, Standing } from "../book/standing.ts";
import { canBe, tiedTo } from "../book/tied.ts";
import { type Brood, broods } from "../book/whereabouts.ts";
import { heatAt } from "../trade/brooding.ts";
import { batchName, batchNames, unknownFamily } from "./names.ts";

/** Young of one batch in one place, or of several that nobody can tell apart. ageDays, bornMs: null where nobody wrote when they hatched. */
export interface Group {
  /** Where nobody knows of which batch they are, the first of those they may be of. */
  readonly lot: Lot;
  readonly among: readonly string[];
  readonly name: string;
  readonly species: string;
  readonly n: number;
  readonly stages: Stages;
  readonly bornMs: number | null;
  readonly ageDays: number | null;
  /** Counts that cannot be, its own or those of the batches it is tied to: no figure is told of it. */
  readonly isOdd: boolean;
}

/** A place and the young in it. id: "" for those whose place nobody wrote. */
export interface Nest {
  readonly id: string;
  readonly place: Readonly<Place> | null;
  readonly groups: readonly Group[];
  readonly n: number;
  /** The batch by whose age heat, room, feed and water go: the youngest. */
  readonly youngest: Group | null;
}

/** The address of young whose place nobody wrote. */
export const NOWHERE = "nowhere";
const HOMES = ["brooder", "hen"];
const MACHINES = ["incubator", "hatcher"];

export const nestPath = (id: string) => `/broods/${id || NOWHERE}`;
export const broodPath = (lot: string) => `/brood/${lot}`;

/** Every place that holds young, and brooders that stand empty: those with the youngest first, empty ones last. */
export function nests(standing: Standing, nowMs: number): Nest[] {
  const all = broods(standing);
  const held = new Set(all.map((brood) => brood.place));
  const empty = [...standing.places].filter(([id, place]) => place.role === "brooder" && !held.has(id));
  const listAt = (id: string) => all.filter((brood) => brood.place === id);
  const found = [...held].map((id) => nestOf(standing, id, listAt(id), nowMs));
  const ageOf = ({ youngest }: Nest) => youngest?.ageDays ?? Number.POSITIVE_INFINITY;
  found.sort((a, b) => ageOf(a) - ageOf(b) || a.id.localeCompare(b.id));
  return [...found, ...empty.map(([id]) => nestOf(standing, id, [], nowMs))];
}

export function nestAt(standing: Standing, id: string, nowMs: number): Nest {
  const list = broods(standing).filter((brood) => brood.place === id);
  return nestOf(standing, id, list, nowMs);
}

function nestOf(standing: Standing, id: string, list: readonly Brood[], nowMs: number): Nest {
  const lots = list.flatMap((one) => standing.lots.get(one.lot) ?? []);
  const names = batchNames(standing, lots);
  const groups = list.flatMap((one): Group[] => {
    const lot = standing.lots.get(one.lot);
    if (lot === undefined) return [];
    const bornMs = hatchedMs(standing, lot, one.among);
    const ageDays = bornMs === null ? null : Math.max(0, wholeDays(bornMs, nowMs));
    const { n, stages, among } = one;
    const tied = tiedTo(standing, lot);
    const isOdd = (among.length > 0 ? tied.lots : [lot]).some((own) => !canBe(own, tied));
    const families = new Set(tied.lots.map((own) => batchName(standing, own)));
    const name =
      among.length > 0
        ? `${unknownFamily(standing)} (${[...families].join(" / ")})`
        : (names.get(lot.id) ?? "");
    return [{ lot, among, name, species: speciesOf(standing, lot), n, stages, bornMs, ageDays, isOdd }];
  });
  const dated = groups.filter((group) => group.ageDays !== null);
  const [youngest = groups[0] ?? null] = dated.sort((a, b) => (a.ageDays ?? 0) - (b.ageDays ?? 0));
  const n = groups.reduce((sum, group) => sum + group.n, 0);
  return { id, place: standing.places.get(id) ?? null, groups, n, youngest };
}

/** All batches that young here are of, or may be of. */
export const lotsOf = (groups: readonly Pick<Group, "lot" | "among">[]): string[] => [
  ...new Set(groups.flatMap(({ lot, among }) => [lot.id, ...among])),
];

/** Tells groups of one place apart. */
export const keyOf = ({ lot, among }: Pick<Group, "lot" | "among">) => among.join() || lot.id;

/** Whether chicks are still where they hatched. */
export const isMachine = ({ place }: Nest) => place !== null && MACHINES.includes(place.role);
export const isHome = (place: Readonly<Place>) => HOMES.includes(place.role);

/** Whether heat is asked for here now: not under a hen, nor for birds that need none. */
export const isHeated = ({ place, youngest }: Nest): boolean =>
  place?.role !== "hen" &&
  youngest !== null &&
  youngest.ageDays !== null &&
  heatAt(youngest.species, youngest.ageDays) !== undefined;

/** Those of whom the counts cannot be: no figure is told of them. */
export const odd = ({ groups }: Pick<Nest, "groups">): Group[] => groups.filter(({ isOdd }) => isOdd);

/** How many of one batch are there; no figure where its counts cannot be. */
export const groupWords = (group: Group): string => (group.isOdd ? words.cannotBe : youngWords([group]));

/** "12 chicks", "12 growing birds", "3 chicks and 2 ducklings". */
export function youngWords(groups: readonly Pick<Group, "n" | "species" | "stages">[]): string {
  const isGrown = groups.every(({ stages }) => [...stages.keys()].every((stage) => stage === "growing"));
  const total = groups.reduce((sum, { n }) => sum + n, 0);
  if (isGrown && groups.length > 0) return words.growing(total);
  const bySpecies = new Map<string, number>();
  for (const { species, n } of groups) bySpecies.set(species, (bySpecies.get(species) ?? 0) + n);
  return listed([...bySpecies].map(([species, n]) => young(n, species)));
}

/** "9 days old", "3 and 16 days old"; "" where no age is known. */
export function ageWords(groups: readonly Pick<Group, "ageDays">[]): string {
  const ages = [...new Set(groups.flatMap(({ ageDays }) => (ageDays === null ? [] : [ageDays])))];
  ages.sort((a, b) => a - b);
  const [only] = ages;
  if (only === undefined) return "";
  if (ages.length === 1) return words.age(only);
  return words.ages(listed(ages.map(String)));
}
