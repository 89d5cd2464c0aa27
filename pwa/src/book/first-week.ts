/**
 * How many of the chicks that are a week old lived through their first seven days. Mirrors
 * server/broodline/reports/first_week.py.
 *
 * Chicks are not told apart within a lot: whoever leaves is taken to be the one that hatched first of those still
 * there.
 */
import { byAscii } from "./code-points.ts";
import { DAY_MS } from "./moments.ts";
import { CHICK_STAGES, MISSING, NOT_WRITTEN, STAGES } from "./stages.ts";
import type { Move } from "./standing.ts";

const WEEK_MS = 7 * DAY_MS;
const LIVING = ["hatched", "brooding", "growing", "flock"];

/** So many chicks that came out, or left in the same way, at the same time. */
interface Group {
  readonly atMs: number;
  n: number;
  readonly how: string;
}

interface Lives {
  hatched: Group[];
  left: Group[];
}

export interface Alive {
  readonly alive: number;
  readonly of: number;
}

/**
 * Of the chicks hatched at least 7 days ago and not parted within 7 days, those alive at 7 days. A chick missing since
 * then counts as lost; one that was found again does not; one found dead counts from when it was missed. Nothing is
 * told of a batch some of whom are gone within that week and nobody wrote how.
 */
export function aliveAtSevenDays(moves: readonly Move[], nowMs: number): Alive {
  const { left, of } = leftWithinSevenDays(moves, nowMs);
  return { alive: of - [...left.values()].reduce((sum, n) => sum + n, 0), of };
}

/** As `aliveAtSevenDays`, but those that are not alive by how they left: died, culled, missing. */
export function leftWithinSevenDays(
  moves: readonly Move[],
  nowMs: number,
): { readonly left: ReadonlyMap<string, number>; readonly of: number } {
  const lives = livesOf(moves);
  const leaving = [...lives.left].sort((a, b) => a.atMs - b.atMs || byAscii(a.how, b.how));
  const left = new Map<string, number>();
  const untold = moves.filter(({ target, cause }) => target === "parted" && cause === NOT_WRITTEN);
  const toldUntilMs = Math.min(...untold.map(({ atMs }) => atMs));
  let of = 0;
  let next = 0;
  for (const born of [...lives.hatched].sort(byTime)) {
    if (born.atMs > nowMs - WEEK_MS) break;
    let rest = born.n;
    const isTold = toldUntilMs > born.atMs + WEEK_MS;
    for (let gone = leaving[next]; rest > 0 && gone !== undefined; gone = leaving[next]) {
      const taken = Math.min(rest, gone.n);
      rest -= taken;
      gone.n -= taken;
      if (gone.n === 0) next += 1;
      const isWithin = gone.atMs <= born.atMs + WEEK_MS;
      if (!isTold) continue;
      if (!isWithin || gone.how !== "parted") of += taken;
      if (isWithin && gone.how !== "parted") left.set(gone.how, (left.get(gone.how) ?? 0) + taken);
    }
    if (isTold) of += rest;
  }
  return { left, of };
}

/** When chicks hatched, and when and how they left: hatching first, then leaving, then what was put right. */
function livesOf(moves: readonly Move[]): Lives {
  const lives: Lives = { hatched: [], left: [] };
  const inTurn = [...moves].sort((a, b) => rank(a) - rank(b) || a.atMs - b.atMs || byAscii(a.entry, b.entry));
  for (const { source: from, target: to, atMs, n } of inTurn) {
    const source = stateOf(from);
    const target = stateOf(to);
    if (source === "egg") hatch(lives, atMs, n, target);
    else if (source === "living") leave(lives, atMs, n, target);
    else putRight(lives, atMs, n, source, target);
  }
  return lives;
}

function rank(move: Move): number {
  const source = stateOf(move.source);
  return source === "egg" ? 0 : source === "living" ? 1 : 2;
}

function hatch(lives: Lives, atMs: number, n: number, target: string): void {
  if (target === "egg" || target === "missing") return;
  lives.hatched.push({ atMs, n, how: "" });
  if (target !== "living") lives.left.push({ atMs, n, how: target });
}

function leave(lives: Lives, atMs: number, n: number, target: string): void {
  if (target === "egg") lives.hatched = take(lives.hatched, n, "").rest;
  else if (target !== "living") lives.left.push({ atMs, n, how: target });
}

/** Missing chicks are found, or some said to be gone are not: the first to leave so live on, or left otherwise. */
function putRight(lives: Lives, atMs: number, n: number, source: string, target: string): void {
  if (target === "egg" && source === "missing") return;
  const { taken, rest } = take(lives.left, n, source);
  lives.left = rest;
  if (target === "egg") {
    lives.hatched = take(lives.hatched, n, "").rest;
    return;
  }
  if (target !== "living") lives.left.push(...taken.map((group) => ({ ...group, how: target })));
  const more = n - taken.reduce((sum, group) => sum + group.n, 0);
  if (more > 0 && source === "missing" && target !== "missing") hatch(lives, atMs, more, target);
}

/** Takes up to n, the earliest first, out of the groups that left this way. */
function take(groups: readonly Group[], n: number, how: string): { taken: Group[]; rest: Group[] } {
  const taken: Group[] = [];
  let wanted = n;
  for (const group of groups.filter((one) => one.how === how).sort(byTime)) {
    const some = Math.min(wanted, group.n);
    group.n -= some;
    wanted -= some;
    if (some > 0) taken.push({ ...group, n: some });
  }
  return { taken, rest: groups.filter((group) => group.n > 0) };
}

function byTime(a: Group, b: Group): number {
  return a.atMs - b.atMs;
}

/** "egg", "living", "missing", or how a chick is gone. */
function stateOf(stage: string): string {
  if (LIVING.includes(stage)) return "living";
  if (CHICK_STAGES.includes(stage)) return stage;
  return stage === MISSING || !STAGES.includes(stage) ? "missing" : "egg";
}
