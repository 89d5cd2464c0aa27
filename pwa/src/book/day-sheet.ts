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
  const sum = (on: string, ...ways: Way[]) =>
    passages.reduce((all, one) => all + (one.on === on && ways.includes(one.way) ? (one.n ?? 0) : 0), 0);
  return days.map((on) => ({
    on,
    kept: chicks.reduce((all, one) => all + (one.on <= on ? one.by : 0), 0) + birdsOn(standing, on, dayOf),
    hatched: chicks.reduce((all, one) => all + (one.on === on && one.out ? one.by : 0), 0),
    came: sum(on, "came"),
    left: sum(on, "left"),
    died: sum(on, "died", "culled"),
    missing: sum(on, "missing"),
  }));
}

/** By how much each move changed the number of living chicks. Those kept as birds are counted as birds from then on. */
function chickChanges({ lots, heads }: Standing, dayOf: (atMs: number) => string) {
  const isYoung = (stage: string) => YOUNG.includes(stage);
  const named = namedByLot({ heads } as Standing);
  const moves = [...lots.values()].flatMap((lot) => {
    let asBirds = named.get(lot.id) ?? 0;
    return lot.moves.map((move) => {
      const { atMs, source, target, n } = move;
      const birds = target === "flock" ? Math.min(asBirds, n) : 0;
      asBirds -= birds;
      const by = (isYoung(target) ? n : 0) - (isYoung(source) ? n : 0) - birds;
      return { on: dayOf(atMs), by, out: comesOut(move) };
    });
  });
  const came = (heads.came ?? []).flatMap(({ body }) =>
    body.lot && body.n ? [{ on: body.on, by: body.n, out: false }] : [],
  );
  return [...moves, ...came];
}

/** How many birds known by themselves came surely from each batch. */
function namedByLot({ heads }: Pick<Standing, "heads">): Map<string, number> {
  const found = new Map<string, number>();
  for (const { body } of heads.bird ?? []) {
    const [first, ...others] = body.lots ?? [];
    if (first && others.length === 0) found.set(first.lot, (found.get(first.lot) ?? 0) + 1);
  }
  return found;
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
