/**
 * Who is kept here at the end of a day: birds known by themselves, and chicks that are counted by their batches. Mirrors
 * server/broodline/book/kept_here.py, where the rule stands, over tests/vectors/kept_here.json.
 */
import { birdId, birdsOf } from "./birds.ts";
import { byAscii } from "./code-points.ts";
import { NEVER_HERE } from "./gone-birds.ts";
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
  const named = new Map<string, number>();
  const birds: string[] = [];
  for (const [id, { body, where }] of birdsOf(standing, day)) {
    const on = written.get(id) ?? "";
    const lot = body.lots?.[0]?.lot;
    if (lot !== undefined && on <= day) named.set(lot, (named.get(lot) ?? 0) + 1);
    const since = lot === undefined ? (body.hatched_on ?? on) : on;
    if (where === "here" && (came.get(id) ?? since) <= day) birds.push(id);
  }
  return {
    birds,
    chicks: chicksOn(standing, named, (move) => (dayOf(move.atMs) <= day ? changeBy(move) : 0), day),
  };
}

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
  named: ReadonlyMap<string, number>,
  change: (move: Move) => number,
  day: string,
): number {
  const sum = (moves: readonly Move[]) => moves.reduce((all, move) => all + change(move), 0);
  const on = (id: string) => (heads.came ?? []).find(({ body }) => body.lot === id && body.n)?.body.on ?? "";
  const own = [...lots.values()].reduce((all, lot) => {
    const begun = lot.came && on(lot.id) <= day ? lot.n : 0;
    return all + Math.max(0, begun + sum(lot.moves) - (named.get(lot.id) ?? 0));
  }, 0);
  return Math.max(
    0,
    [...settings.values()].reduce((all, { among }) => all + sum(among), own),
  );
}
