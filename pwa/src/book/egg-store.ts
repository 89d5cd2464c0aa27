/**
 * Eggs in store, by family and day of laying: what was kept, less what left, less what was set from it. Mirrors
 * server/broodline/reports/egg_store.py over tests/vectors/egg_store.json. Nothing can go below zero: eggs that no
 * entry says were kept never stood in this account. Bought-in batches do not come from the store. The oldest leave
 * first; a batch with days of laying takes only from those days.
 */
import { localDate } from "../trade/calendar.ts";
import { sum } from "../trade/weight-loss.ts";
import { birdId } from "./birds.ts";
import type { Gathered } from "./bodies.generated.ts";
import { byAscii, byCodePoint } from "./code-points.ts";
import { dayNumber, heldMs } from "./moments.ts";
import { root as rootOf } from "./readings.ts";
import type { Head, Standing } from "./standing.ts";

const PACE_DAYS = 7;

/** Eggs of one day that are still there. ageDays: on the day asked about. */
export interface Parcel {
  readonly on: string;
  readonly n: number;
  readonly ageDays: number;
  readonly dam: string | null;
  readonly store: string | null;
}

/**
 * n = kept - out - set. beyond: eggs said to have left that no entry says were kept. kept7d: kept in the seven days
 * up to the day asked about. parcels: the oldest first.
 */
export interface FamilyStore {
  readonly family: string;
  readonly n: number;
  readonly oldestDays: number | null;
  readonly gathered: number;
  readonly kept: number;
  readonly out: number;
  readonly set: number;
  readonly beyond: number;
  readonly kept7d: number;
  readonly parcels: readonly Parcel[];
}

export interface EggStore {
  readonly on: string;
  readonly n: number;
  readonly families: readonly FamilyStore[];
}

/** n eggs that leave on a day. first, last: the days of laying they may be of. dams: none: of any hen. */
interface Draw {
  readonly day: string;
  readonly isSet: boolean;
  readonly root: string;
  readonly index: number;
  readonly n: number;
  readonly first: string;
  readonly last: string;
  readonly dams: ReadonlySet<string>;
}

/** The store at `nowMs`; families by id, those alone of which eggs were gathered or left. */
export function eggStore(standing: Standing, nowMs: number): EggStore {
  const on = localDate(nowMs, standing.keeper.zone);
  const gathered = new Map<string, Head<"gathered">[]>();
  const draws = new Map<string, Draw[]>();
  for (const head of standing.heads.gathered ?? []) put(gathered, rootOf(standing, head.body.family), head);
  for (const { root, body } of standing.heads.eggs_out ?? []) {
    const draw = { day: body.on, isSet: false, root, index: 0, n: body.n, first: "", last: body.on };
    put(draws, rootOf(standing, body.family), { ...draw, dams: new Set<string>() });
  }
  const named = [...new Set([...gathered.keys(), ...draws.keys()])].sort(byCodePoint);
  for (const [family, draw] of setsOf(standing)) put(draws, family, draw);
  const families = named.map((name) =>
    familyStore(standing, name, gathered.get(name) ?? [], draws.get(name) ?? [], on),
  );
  return { on, n: sum(families.map((family) => family.n)), families };
}

function put<T>(lists: Map<string, T[]>, key: string, one: T): void {
  const list = lists.get(key);
  if (list === undefined) lists.set(key, [one]);
  else list.push(one);
}

/** Every batch of the holding's own eggs, with its family. */
function setsOf(standing: Standing): [family: string, draw: Draw][] {
  return (standing.heads.set ?? []).flatMap(({ root, body }) => {
    const day = localDate(heldMs(standing.settings.get(root)?.setAtMs ?? 0), standing.keeper.zone);
    return body.lots.flatMap((lot, index): [string, Draw][] => {
      const isFirst = body.lots.findIndex((one) => one.lot === lot.lot) === index;
      if (lot.from || !isFirst || standing.lots.get(lot.lot)?.setting !== root) return [];
      const dams = new Set((lot.dams ?? []).map((share) => birdId(standing, share.bird)));
      const last = lot.laid_to && lot.laid_to < day ? lot.laid_to : day;
      const draw = { day, isSet: true, root, index, n: lot.n, first: lot.laid_from ?? "", last, dams };
      return [[rootOf(standing, lot.family), draw]];
    });
  });
}

function familyStore(
  standing: Standing,
  family: string,
  gathered: readonly Head<"gathered">[],
  draws: readonly Draw[],
  today: string,
): FamilyStore {
  const heads = [...gathered].sort((a, b) => byAscii(a.body.on, b.body.on) || byAscii(a.root, b.root));
  const bodies = heads.map((head) => head.body);
  const left = bodies.map((body) => body.kept);
  let [out, set, beyond] = [0, 0, 0];
  for (const draw of [...draws].sort(inTurn)) {
    const wanting = takeFrom(standing, bodies, left, draw);
    if (draw.isSet) set += draw.n - wanting;
    else {
      out += draw.n - wanting;
      beyond += wanting;
    }
  }
  const todayNumber = dayNumber(today) ?? 0;
  const ageOf = (day: string) => todayNumber - (dayNumber(day) ?? 0);
  const parcels = bodies.flatMap((body, i) => parcelOf(body, left[i] ?? 0, ageOf(body.on)));
  const recent = bodies.filter((body) => ageOf(body.on) >= 0 && ageOf(body.on) < PACE_DAYS);
  return {
    family,
    n: sum(left),
    oldestDays: parcels[0]?.ageDays ?? null,
    gathered: sum(bodies.map((body) => body.n)),
    kept: sum(bodies.map((body) => body.kept)),
    out,
    set,
    beyond,
    kept7d: sum(recent.map((body) => body.kept)),
    parcels,
  };
}

function inTurn(a: Draw, b: Draw): number {
  return (
    byAscii(a.day, b.day) || Number(a.isSet) - Number(b.isSet) || byAscii(a.root, b.root) || a.index - b.index
  );
}

/** Takes what a draw may have out of `left`, the oldest first; how many it did not find. */
function takeFrom(standing: Standing, bodies: readonly Gathered[], left: number[], draw: Draw): number {
  let wanted = draw.n;
  bodies.forEach(({ on, dam }, i) => {
    const ofAnotherHen = draw.dams.size > 0 && dam && !draw.dams.has(birdId(standing, dam));
    if (on < draw.first || on > draw.last || ofAnotherHen) return;
    const n = Math.min(wanted, left[i] ?? 0);
    left[i] = (left[i] ?? 0) - n;
    wanted -= n;
  });
  return wanted;
}

function parcelOf({ on, dam, store }: Gathered, n: number, ageDays: number): Parcel[] {
  return n > 0 ? [{ on, n, ageDays, dam: dam ?? null, store: store ?? null }] : [];
}
