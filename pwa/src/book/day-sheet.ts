/**
 * The daily sheet that an authority's order may ask for: how many birds were kept, hatched, came, left, died. From the
 * book alone; how many look ill only the keeper can say.
 */
import { birdsOf } from "./birds.ts";
import { comesOut } from "./stages.ts";
import type { Standing } from "./standing.ts";
import { trafficOf, type Way } from "./traffic.ts";

const YOUNG = ["hatched", "brooding", "growing", "flock"];

/** One day. kept: at its end. died: culled too. */
export interface DaySheet {
  readonly on: string;
  readonly kept: number;
  readonly hatched: number;
  readonly came: number;
  readonly left: number;
  readonly died: number;
  readonly missing: number;
}

/** The sheet of some days, of the whole holding: chicks by their batches, birds one by one. */
export function daySheets(
  standing: Standing,
  days: readonly string[],
  dayOf: (atMs: number) => string,
): DaySheet[] {
  const passages = trafficOf(standing, dayOf).filter(
    ({ way }) => !way.startsWith("eggs") && way !== "treated",
  );
  const chicks = chickChanges(standing, dayOf);
  const named = namedBirds(standing, dayOf);
  const sum = (on: string, ...ways: Way[]) =>
    passages.reduce((all, one) => all + (one.on === on && ways.includes(one.way) ? (one.n ?? 0) : 0), 0);
  return days.map((on) => ({
    on,
    kept: chicksOn(chicks, named, on) + birdsOn(standing, on, dayOf),
    hatched: chicks.reduce((all, one) => all + (one.on === on && one.out ? one.by : 0), 0),
    came: sum(on, "came"),
    left: sum(on, "left"),
    died: sum(on, "died", "culled"),
    missing: sum(on, "missing"),
  }));
}

/** A day on which the number of living chicks changed. lot: null where nobody knows of which. out: they hatched. */
interface Change {
  readonly on: string;
  readonly lot: string | null;
  readonly by: number;
  readonly out: boolean;
}

function chickChanges({ lots, settings, heads }: Standing, dayOf: (atMs: number) => string): Change[] {
  const among = [...settings.values()].flatMap((setting) => setting.among);
  const moves = [...[...lots.values()].flatMap((lot) => lot.moves), ...among].map((move): Change => {
    const by = move.n * (Number(YOUNG.includes(move.target)) - Number(YOUNG.includes(move.source)));
    return { on: dayOf(move.atMs), lot: move.lot, by, out: comesOut(move) };
  });
  const came = (heads.came ?? []).flatMap(({ body }): Change[] =>
    body.lot && body.n ? [{ on: body.on, lot: body.lot, by: body.n, out: false }] : [],
  );
  return [...moves, ...came];
}

/** Chicks that live at the end of a day, without those that are written down as birds by then: they are counted so. */
function chicksOn(changes: readonly Change[], birds: readonly Named[], on: string): number {
  const alive = new Map<string | null, number>();
  for (const one of changes) if (one.on <= on) alive.set(one.lot, (alive.get(one.lot) ?? 0) + one.by);
  for (const { lot, on: written } of birds)
    if (written <= on) alive.set(lot, Math.max(0, (alive.get(lot) ?? 0) - 1));
  return Math.max(
    0,
    [...alive.values()].reduce((sum, n) => sum + n, 0),
  );
}

/** A bird known by itself that came from a batch; of several batches it may have come from, the first. */
interface Named {
  readonly lot: string;
  readonly on: string;
}

function namedBirds({ heads }: Standing, dayOf: (atMs: number) => string): Named[] {
  return (heads.bird ?? []).flatMap(({ body, atMs }) => {
    const [first] = body.lots ?? [];
    return first ? [{ lot: first.lot, on: dayOf(atMs) }] : [];
  });
}

/** Birds known by themselves that are here at the end of a day: written down by then, or come by then. */
function birdsOn(standing: Standing, on: string, dayOf: (atMs: number) => string): number {
  const written = new Map((standing.heads.bird ?? []).map(({ root, atMs }) => [root, dayOf(atMs)]));
  const came = new Set(
    (standing.heads.came ?? []).flatMap(({ body }) => (body.bird && body.on <= on ? [body.bird] : [])),
  );
  return [...birdsOf(standing, on).values()].filter(
    ({ id, where }) => where === "here" && (came.has(id) || (written.get(id) ?? "") <= on),
  ).length;
}
