/**
 * Who is kept here at the end of a day: birds known by themselves, and chicks that are counted by their batches. Mirrors
 * server/broodline/book/kept_here.py, where the rule stands, over tests/vectors/kept_here.json.
 */
import { birdId, birdsOf } from "./birds.ts";
import { byAscii } from "./code-points.ts";
import { NEVER_HERE } from "./gone-birds.ts";
import { putBack } from "./out-of-shell.ts";
import { MISSING } from "./stages.ts";
import type { Move, Standing } from "./standing.ts";
import { LIVING } from "./whereabouts.ts";

const CAME_BACK = ["returned", "found"];
const NEVER = "9999-12-31";

/** birds: ids of those known by themselves. chicks: how many of batches, of whom no bird is written down. */
export interface KeptHere {
  readonly birds: readonly string[];
  readonly chicks: number;
}

/** All that is kept at the end of a local day. dayOf: the local day of a moment in milliseconds. */
export function keptHere(standing: Standing, day: string, dayOf: (atMs: number) => string): KeptHere {
  const written = writtenOn(standing, dayOf);
  const came = cameOn(standing);
  const named: (readonly string[])[] = [];
  const birds: string[] = [];
  for (const [id, { body, where }] of birdsOf(standing, day)) {
    const on = written.get(id) ?? "";
    const lots = (body.lots ?? []).map(({ lot }) => lot);
    if (lots.length > 0 && on <= day) named.push(lots);
    const since = lots.length > 0 ? on : (body.hatched_on ?? on);
    if (where === "here" && (came.get(id) ?? since) <= day) birds.push(id);
  }
  return {
    birds,
    chicks: chicksOn(standing, named, (move) => (dayOf(move.atMs) <= day ? changeBy(move) : 0), day),
  };
}

/**
 * Chicks that were missing and are back, in order of time. What was lost from sight and is put into hatched is an egg
 * beyond the chicks that are missing by then; n is that of the chicks.
 */
export function foundAgain(moves: readonly Move[]): Move[] {
  return putBack(moves).flatMap(([move, back]) => {
    const n = move.target === "hatched" ? back : move.n;
    return move.source === MISSING && LIVING.includes(move.target) && n > 0 ? [{ ...move, n }] : [];
  });
}

/** All that was moved: of one lot each, and of one of several, nobody knows which. */
export const movesApart = ({ lots, settings }: Standing): (readonly Move[])[] => [
  ...[...lots.values()].map(({ moves }) => moves),
  ...[...settings.values()].map(({ among }) => among),
];

/** By how much a move changes the number of living chicks. */
const changeBy = ({ source, target, n }: Move): number =>
  n * (Number(LIVING.includes(target)) - Number(LIVING.includes(source)));

function writtenOn(standing: Standing, dayOf: (atMs: number) => string): ReadonlyMap<string, string> {
  const days = new Map<string, string>();
  for (const { root, atMs } of standing.heads.bird ?? []) {
    const id = birdId(standing, root);
    const day = dayOf(atMs);
    if (day < (days.get(id) ?? NEVER)) days.set(id, day);
  }
  return days;
}

/** Since when birds are here that were not before: those whose first passage is a coming, and those never here. */
function cameOn(standing: Standing): ReadonlyMap<string, string> {
  const gone = new Map<string, string>();
  const since = new Map<string, string>();
  const never = new Set<string>();
  for (const { body } of standing.heads.left ?? []) {
    const id = birdId(standing, body.bird);
    if (body.cause === NEVER_HERE) never.add(id);
    else if (body.on < (gone.get(id) ?? NEVER)) gone.set(id, body.on);
  }
  const came = (standing.heads.came ?? [])
    .flatMap(({ body: { bird, on, how } }) => {
      return bird ? [{ id: birdId(standing, bird), on, isBack: CAME_BACK.includes(how) }] : [];
    })
    .sort((a, b) => byAscii(a.on, b.on) || Number(a.isBack) - Number(b.isBack));
  const first = new Map([...came].reverse().map((one) => [one.id, one]));
  for (const id of never) since.set(id, first.get(id)?.on ?? NEVER);
  for (const { id, on, isBack } of first.values())
    if (!isBack && on < (gone.get(id) ?? NEVER)) since.set(id, on);
  return since;
}

function chicksOn(
  { lots, settings, heads }: Standing,
  named: readonly (readonly string[])[],
  change: (move: Move) => number,
  day: string,
): number {
  const sum = (moves: readonly Move[]) => moves.reduce((all, move) => all + change(move), 0);
  const on = (id: string) => (heads.came ?? []).find(({ body }) => body.lot === id && body.n)?.body.on ?? "";
  const alive = new Map<string, number>();
  for (const lot of lots.values()) {
    const begun = lot.came && on(lot.id) <= day ? lot.n : 0;
    alive.set(lot.id, Math.max(0, begun + sum(lot.moves)));
  }
  const told = [...alive.values()].reduce((all, n) => all + n, -takenOff(alive, named));
  return Math.max(
    0,
    [...settings.values()].reduce((all, { among }) => all + sum(among), told),
  );
}

/**
 * How many chicks of batches are birds written down by themselves: each is one of a batch it may have come from, as far
 * as any of these has one left. named: for each bird, the batches it may be of.
 */
function takenOff(alive: ReadonlyMap<string, number>, named: readonly (readonly string[])[]): number {
  const held = new Map<string, (readonly string[])[]>();
  const takes = (lots: readonly string[], asked: Set<string>): boolean =>
    lots.some((lot) => {
      if (asked.has(lot)) return false;
      asked.add(lot);
      const own = held.get(lot) ?? [];
      // A bird that may as well be of another batch makes room.
      const at = own.length < (alive.get(lot) ?? 0) ? own.length : own.findIndex((one) => takes(one, asked));
      if (at < 0) return false;
      own[at] = lots;
      held.set(lot, own);
      return true;
    });
  return named.filter((lots) => takes(lots, new Set())).length;
}
