/**
 * Who is where: the chicks of each lot by stage and place, the broods that share a place, and where they stood before.
 * Mirrors server/broodline/book/whereabouts.py, where the rule stands, over tests/vectors/whereabouts.json.
 */
import { byCodePoint } from "./code-points.ts";
import { CHICK_STAGES, MISSING } from "./stages.ts";
import { inStage, type Lot, type Move, type Setting, type Stages, type Standing } from "./standing.ts";
import { stagesOf, type Tied, tiedGroups } from "./tied.ts";

export const LIVING: readonly string[] = ["hatched", "brooding", "growing", "flock"];
const YOUNG = ["hatched", "brooding", "growing"];
const MACHINES: readonly string[] = ["incubator", "hatcher"];

/**
 * Young of one lot in one place. place: "" where nobody wrote it. stages: how many in each, all above zero. among: the
 * lots they may be of where nobody knows the family, then `lot` is the first of them; else empty.
 */
export interface Brood {
  readonly lot: string;
  readonly among: readonly string[];
  readonly place: string;
  readonly stages: Stages;
  readonly n: number;
}

/** Living chicks or birds of a lot in one place. untilMs: when the last of them left; null while some are there. */
export interface Stay {
  readonly place: string;
  readonly sinceMs: number;
  readonly untilMs: number | null;
}

/** Chicks of one lot: stage -> place -> how many. */
type Held = Map<string, Map<string, number>>;

/** Every lot's young by place, in order of lots and places; then those of unknown family, setting by setting. */
export function broods(standing: Standing): Brood[] {
  const { lots, settings } = standing;
  const own = [...lots.values()].flatMap((lot) => broodsOf(standing, lot));
  return [...own, ...[...settings.values()].flatMap((setting) => sharedBroods(standing, setting))];
}

/** The young of one lot, by place. */
export function broodsOf(standing: Standing, lot: Lot): Brood[] {
  const held = ownOf(standing, lot);
  return byPlace(held, lot.id, []);
}

function ownOf(standing: Standing, lot: Lot, after?: After): Held {
  const held: Held = new Map();
  const setting = lot.setting === null ? undefined : standing.settings.get(lot.setting);
  if (lot.came) put(held, lot.start, "", lot.n);
  walk(standing, held, lot.moves, setting ? shellOf(setting) : "", after);
  return held;
}

/**
 * Where chicks of one lot, and those of unknown family that may be of it, stood since they hatched or came; the earliest
 * first.
 */
export function staysOf(standing: Standing, lot: Lot): Stay[] {
  const setting = standing.settings.get(lot.setting ?? "");
  const lots = setting?.among.length ? setting.lots.flatMap((name) => standing.lots.get(name) ?? []) : [];
  const tied = tiedGroups(lots, setting?.among ?? []).filter((one) =>
    one.lots.some(({ id }) => id === lot.id),
  );
  const stays = [
    ...staysIn((after) => ownOf(standing, lot, after)),
    ...tied.flatMap(({ among }) =>
      staysIn((after) => walk(standing, new Map(), among, setting ? shellOf(setting) : "", after)),
    ),
  ];
  return stays.sort((a, b) => a.sinceMs - b.sinceMs || byCodePoint(a.place, b.place));
}

/** Is told of every move, once the chicks are where it took them. */
type After = (held: Held, atMs: number) => void;

function staysIn(walked: (after: After) => unknown): Stay[] {
  const over: Stay[] = [];
  const since = new Map<string, number>();
  walked((held, atMs) => {
    const all = [...held.values()].flatMap((places) => [...places]);
    const there = new Set(all.flatMap(([place, n]) => (place !== "" && n > 0 ? [place] : [])));
    for (const [place, sinceMs] of since) {
      if (there.has(place)) continue;
      over.push({ place, sinceMs, untilMs: atMs });
      since.delete(place);
    }
    for (const place of there) since.set(place, since.get(place) ?? atMs);
  });
  return [...over, ...[...since].map(([place, sinceMs]) => ({ place, sinceMs, untilMs: null }))];
}

/** Whether some stood there at a moment. */
export const covers = ({ sinceMs, untilMs }: Stay, atMs: number): boolean =>
  sinceMs <= atMs && (untilMs === null || atMs <= untilMs);

/** The young of a setting of whom nobody knows the family, by place: they may be of any of the lots they tie. */
export function sharedBroods(standing: Standing, setting: Setting): Brood[] {
  if (setting.among.length === 0) return [];
  const lots = setting.lots.flatMap((name) => standing.lots.get(name) ?? []);
  return tiedGroups(lots, setting.among)
    .filter(({ among }) => among.length > 0)
    .flatMap((tied) => shared(standing, tied, shellOf(setting)));
}

/** No more in a stage, nor in all, than the lots have together beyond what is known of each. */
function shared(standing: Standing, tied: Tied, shell: string): Brood[] {
  const held: Held = new Map();
  walk(standing, held, tied.among, shell);
  const every = stagesOf(tied);
  let room = 0;
  for (const stage of LIVING) {
    const known = tied.lots.reduce((n, lot) => n + Math.max(0, inStage(lot, stage)), 0);
    const beyond = (every.get(stage) ?? 0) - known;
    room += beyond;
    leave(held, stage, Math.max(0, beyond));
  }
  for (const stage of [...LIVING].reverse()) room -= leave(held, stage, Math.max(0, room));
  const names = tied.lots.map(({ id }) => id);
  return byPlace(held, names[0] ?? "", names);
}

function byPlace(held: Held, lot: string, among: readonly string[]): Brood[] {
  const places = new Map<string, Map<string, number>>();
  for (const stage of YOUNG) {
    for (const [place, n] of held.get(stage) ?? []) {
      if (n > 0) places.set(place, (places.get(place) ?? new Map()).set(stage, n));
    }
  }
  return [...places]
    .sort(([a], [b]) => byCodePoint(a, b))
    .map(([place, stages]) => {
      const n = [...stages.values()].reduce((sum, some) => sum + some, 0);
      return { lot, among, place, stages, n };
    });
}

const shellOf = ({ lockedPlace, place }: Setting) => lockedPlace ?? place;

/** All moves in order of time; those whose chicks are not there yet wait. What waits at the end leaves from nowhere. */
function walk(
  standing: Standing,
  held: Held,
  moves: readonly Move[],
  shell: string,
  after: After = () => {},
): void {
  let waiting: Move[] = [];
  for (const move of moves) {
    const rest = carry(standing, held, move, shell);
    if (waiting.length > 0) waiting = goOn(standing, held, waiting);
    if (rest > 0 && move.source !== move.target) waiting.push({ ...move, n: rest });
    after(held, move.atMs);
  }
  while (waiting.length > 0) {
    const [first] = [...waiting].sort((a, b) => LIVING.indexOf(a.source) - LIVING.indexOf(b.source));
    if (first === undefined) return;
    put(held, first.target, rootOf(standing, first) || keptAt(standing, first, ""), first.n);
    waiting = goOn(
      standing,
      held,
      waiting.filter((move) => move !== first),
    );
    after(held, first.atMs);
  }
}

/** Moves that wait, as far as chicks are there by now; those that wait still. */
function goOn(standing: Standing, held: Held, waiting: Move[]): Move[] {
  const still = waiting.flatMap((move) => {
    const n = carry(standing, held, move, "");
    return n > 0 ? [{ ...move, n }] : [];
  });
  const isSame = still.length === waiting.length && still.every(({ n }, i) => n === waiting[i]?.n);
  return isSame || still.length === 0 ? still : goOn(standing, held, still);
}

/** One move; how many of it are not there. */
function carry(standing: Standing, held: Held, move: Move, shell: string): number {
  const { source, target, n } = move;
  const place = rootOf(standing, move);
  if (!LIVING.includes(source)) {
    const wasChick = source === MISSING || CHICK_STAGES.includes(source);
    put(held, target, place || (wasChick ? mostAt(held) : shell), n);
    return 0;
  }
  const stays = LIVING.includes(target);
  const leaving = take(held, source, n, stays ? "" : place, stays ? place : "");
  for (const [old, some] of leaving) put(held, target, place || keptAt(standing, move, old), some);
  return leaving.reduce((rest, [, some]) => rest - some, n);
}

const rootOf = (standing: Standing, { place }: Move) =>
  place === null ? "" : (standing.rootOf.get(place) ?? place);

/** Where chicks are after a move that names no place. */
function keptAt(standing: Standing, { source, target }: Move, old: string): string {
  const role = standing.places.get(old)?.role;
  const isOut = source === "hatched" && target !== "hatched";
  return isOut && (role === undefined || MACHINES.includes(role)) ? "" : old;
}

function put(held: Held, stage: string, place: string, n: number): void {
  if (!LIVING.includes(stage) || n <= 0) return;
  const there = held.get(stage) ?? new Map<string, number>();
  held.set(stage, there.set(place, (there.get(place) ?? 0) + n));
}

/** Up to n out of a stage, by place. first, last: the place they leave before, or after, all others. */
function take(held: Held, stage: string, n: number, first: string, last: string): [string, number][] {
  const there = held.get(stage) ?? new Map<string, number>();
  const turn = [...there.keys()].sort(
    (a, b) =>
      Number(a !== first || first === "") - Number(b !== first || first === "") ||
      Number(last !== "" && a === last) - Number(last !== "" && b === last) ||
      (there.get(b) ?? 0) - (there.get(a) ?? 0) ||
      byCodePoint(a, b),
  );
  const taken: [string, number][] = [];
  let left = n;
  for (const place of turn) {
    const some = Math.min(left, there.get(place) ?? 0);
    if (some <= 0) continue;
    there.set(place, (there.get(place) ?? 0) - some);
    left -= some;
    taken.push([place, some]);
  }
  return taken;
}

/** At most so many in a stage; how many are left. */
function leave(held: Held, stage: string, most: number): number {
  const there = [...(held.get(stage)?.values() ?? [])].reduce((sum, n) => sum + n, 0);
  take(held, stage, there - most, "", "");
  return Math.min(there, most);
}

/** Where most of the chicks are. */
function mostAt(held: Held): string {
  const byPlace = new Map<string, number>();
  for (const places of held.values()) {
    for (const [place, n] of places) byPlace.set(place, (byPlace.get(place) ?? 0) + n);
  }
  const [first] = [...byPlace].sort(([a, n], [b, m]) => m - n || byCodePoint(a, b));
  return first?.[0] ?? "";
}
