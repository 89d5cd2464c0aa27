/**
 * Who came, who left, who died and what was given, by day: what an inspector may ask for. From the book alone, so that
 * it can be shown at the gate with no signal.
 */
import { birdId, birdsOf } from "./birds.ts";
import { byAscii } from "./code-points.ts";
import { NEVER_HERE } from "./gone-birds.ts";
import { foundAgain, movesApart } from "./kept-here.ts";
import { CHICK_STAGES, NOT_WRITTEN } from "./stages.ts";
import type { Standing } from "./standing.ts";

export type Way = "came" | "left" | "died" | "culled" | "missing" | "treated" | "eggs_came" | "eggs_left";

/**
 * One line. on: a local day. how: the book's own code of it, or "". n: birds or eggs, null where nobody counted. bird,
 * lot, family, place: what it is about. who: from whom, to whom, or by whom. more: cause, product.
 */
export interface Passage {
  readonly entry: string;
  readonly on: string;
  readonly way: Way;
  readonly how: string;
  readonly n: number | null;
  readonly bird: string | null;
  readonly lot: string | null;
  readonly family: string | null;
  readonly place: string | null;
  readonly who: string | null;
  readonly more: string | null;
}

const NOTHING = { how: "", n: null, bird: null, lot: null, family: null, place: null, who: null, more: null };
const LOST: Readonly<Record<string, Way>> = {
  died: "died",
  culled: "culled",
  parted: "left",
  unaccounted: "missing",
};

/** All passages, the earliest first. dayOf: the local day of a moment in milliseconds. */
export function trafficOf(standing: Standing, dayOf: (atMs: number) => string): Passage[] {
  return [
    ...ofBirds(standing),
    ...ofChicks(standing, dayOf),
    ...ofFound(standing, dayOf),
    ...ofEggs(standing, dayOf),
    ...treatments(standing),
  ].sort((a, b) => byAscii(a.on, b.on) || byAscii(a.entry, b.entry));
}

function ofBirds(standing: Standing): Passage[] {
  const { heads } = standing;
  const families = new Map([...birdsOf(standing, null)].map(([id, { body }]) => [id, body.family ?? null]));
  const familyOf = (bird: string) => families.get(birdId(standing, bird)) ?? null;
  const came = (heads.came ?? []).map(({ root, body }): Passage => {
    const { bird = null, lot = null, n, on, how, from: who = null } = body;
    const family = body.family ?? (bird ? familyOf(bird) : null);
    return {
      ...NOTHING,
      entry: root,
      on,
      way: "came",
      how,
      n: bird ? 1 : (n ?? null),
      bird,
      lot,
      family,
      who,
    };
  });
  const told = new Set<string>();
  const left = (heads.left ?? []).flatMap(({ root, body }): Passage[] => {
    const { bird, on, how, to: who = null, cause: more = null } = body;
    const once = `${birdId(standing, bird)} ${on} ${how}`;
    if (more === NEVER_HERE || told.has(once)) return [];
    told.add(once); // a bird that goes by two names leaves once
    const way = how === "died" || how === "culled" ? how : how === "lost" ? "missing" : "left";
    return [{ ...NOTHING, entry: root, on, way, how, n: 1, bird, family: familyOf(bird), who, more }];
  });
  return [...came, ...left];
}

function ofChicks({ heads, lots }: Standing, dayOf: (atMs: number) => string): Passage[] {
  return (heads.moved ?? []).flatMap(({ root, atMs, body }) =>
    body.moves.flatMap(({ lot = null, from, to, n }): Passage[] => {
      const way = CHICK_STAGES.includes(from) ? LOST[to] : undefined;
      if (way === undefined || body.cause === NOT_WRITTEN) return [];
      const family = lots.get(lot ?? "")?.family ?? null;
      const about = { n, lot, family, who: body.who ?? null, more: body.cause ?? null };
      return [{ ...NOTHING, entry: root, on: dayOf(atMs), way, how: to, ...about }];
    }),
  );
}

function ofFound(standing: Standing, dayOf: (atMs: number) => string): Passage[] {
  const { lots, rootOf } = standing;
  return movesApart(standing)
    .flatMap(foundAgain)
    .map(({ entry, atMs, lot, n, cause: more }) => {
      const about = { n, lot, family: lots.get(lot ?? "")?.family ?? null, more };
      const id = rootOf.get(entry) ?? entry;
      return { ...NOTHING, entry: id, on: dayOf(atMs), way: "came", how: "found", ...about };
    });
}

/** Eggs from elsewhere that were set, and eggs sold or given: hatching eggs are asked for as birds are. */
function ofEggs({ heads }: Standing, dayOf: (atMs: number) => string): Passage[] {
  const came = (heads.set ?? []).flatMap(({ root, body }) =>
    body.lots.flatMap(({ lot, family, n, from }): Passage[] => {
      if (!from) return [];
      const on = from.arrived?.slice(0, 10) ?? dayOf(Date.parse(body.set_at));
      return [{ ...NOTHING, entry: root, on, way: "eggs_came", n, lot, family, who: from.who }];
    }),
  );
  const left = (heads.eggs_out ?? []).flatMap(({ root, body }): Passage[] => {
    const { family, on, n, how, to: who = null } = body;
    if (how !== "sold" && how !== "given") return [];
    return [{ ...NOTHING, entry: root, on, way: "eggs_left", how, n, family, who }];
  });
  return [...came, ...left];
}

function treatments({ heads }: Standing): Passage[] {
  return (heads.treated ?? []).map(({ root, body }): Passage => {
    const { bird = null, lot = null, place = null, by: who = null, product: more } = body;
    return {
      ...NOTHING,
      entry: root,
      on: body.from.slice(0, 10),
      way: "treated",
      bird,
      lot,
      place,
      who,
      more,
    };
  });
}
