/**
 * A standing as text and back, so that a long book is on the screen before all its entries are read. It is a copy of
 * what a fold gave, for the first seconds of a start: the entries are read and folded behind it and take its place.
 * Left out are the heads of looks and moves, which stand in their lots.
 */
import type { Heads, Look, Lot, Move, Setting, Standing } from "../book/standing.ts";
import { LaterMap } from "./later-map.ts";

const LOTS_AT_ONCE = 200;

/** The standing in pieces, each made when it is asked for. */
export function* packed(standing: Standing): Generator<string, void> {
  const { lots, settings, heads, families, places, rootOf, sameBird, awaited, ...plain } = standing;
  const { looked: _looked, moved: _moved, ...others } = heads;
  yield JSON.stringify({
    ...plain,
    lotsFrom: [...lots.keys()].filter((_, at) => at % LOTS_AT_ONCE === 0),
    families: [...families],
    places: [...places],
    rootOf: [...rootOf],
    sameBird: [...sameBird],
    awaited: [...awaited],
    settings: [...settings.values()].map(({ stages, among, ...setting }) => ({
      ...setting,
      stages: [...stages],
      among: among.map(amongRow),
    })),
    heads: others,
  });
  const all = [...lots.values()];
  for (let start = 0; start < all.length; start += LOTS_AT_ONCE) {
    yield JSON.stringify(all.slice(start, start + LOTS_AT_ONCE).map(packedLot));
  }
}

/** The standing again, its lots as they are asked for; null where the text is none that `packed` gave. */
export function unpacked(texts: readonly string[]): Standing | null {
  try {
    const [front = "", ...rest] = texts;
    const { lotsFrom, families, places, rootOf, sameBird, awaited, settings, heads, ...plain } = JSON.parse(
      front,
    ) as PackedFront;
    const lots = (piece: number) => byId((JSON.parse(rest[piece] ?? "[]") as PackedLot[]).map(unpackedLot));
    return {
      ...plain,
      families: new Map(families),
      places: new Map(places),
      rootOf: new Map(rootOf),
      sameBird: new Map(sameBird),
      awaited: new Set(awaited),
      settings: byId(
        settings.map((one): Setting => {
          return { ...one, stages: new Map(one.stages), among: one.among.map(amongMove) };
        }),
      ),
      lots: new LaterMap(lotsFrom, lots),
      heads,
    };
  } catch {
    return null;
  }
}

type Pairs<V> = readonly (readonly [string, V])[];
type Stages = Pairs<number>;
type MoveRow = readonly [
  entry: string,
  atMs: number,
  source: string,
  target: string,
  n: number,
  why: Move["why"],
  day: number | null,
  cause: string | null,
  place: string | null,
  helped: boolean,
  weak: boolean,
];
type AmongRow = readonly [among: readonly string[], move: MoveRow];
type LookRow = readonly [
  entry: string,
  atMs: number,
  what: Look["what"],
  day: number,
  live: number,
  unsure: number,
  pipped: number,
  none: boolean,
];
type PackedLot = Omit<Lot, "stages" | "open" | "moves" | "looks"> & {
  readonly stages: Stages;
  readonly open: Stages;
  readonly moves: readonly MoveRow[];
  readonly looks: readonly LookRow[];
};
type PackedSetting = Omit<Setting, "stages" | "among"> & {
  readonly stages: Stages;
  readonly among: readonly AmongRow[];
};
type PackedFront = Pick<Standing, "keeper" | "problems" | "newer"> & {
  readonly lotsFrom: readonly string[];
  readonly families: Pairs<Standing["families"] extends ReadonlyMap<string, infer V> ? V : never>;
  readonly places: Pairs<Standing["places"] extends ReadonlyMap<string, infer V> ? V : never>;
  readonly rootOf: Pairs<string>;
  readonly sameBird: Pairs<string>;
  readonly awaited: readonly string[];
  readonly settings: readonly PackedSetting[];
  readonly heads: Heads;
};

function byId<T extends { readonly id: string }>(all: readonly T[]): ReadonlyMap<string, T> {
  return new Map(all.map((one) => [one.id, one]));
}

function packedLot({ stages, open, moves, looks, ...lot }: Lot): PackedLot {
  return {
    ...lot,
    stages: [...stages],
    open: [...open],
    moves: moves.map(moveRow),
    looks: looks.map((look) => [
      look.entry,
      look.atMs,
      look.what,
      look.day,
      look.live,
      look.unsure,
      look.pipped,
      look.none,
    ]),
  };
}

function unpackedLot({ stages, open, moves, looks, ...lot }: PackedLot): Lot {
  return {
    ...lot,
    stages: new Map(stages),
    open: new Map(open),
    moves: moves.map((row) => moveOf(row, lot.id, [])),
    looks: looks.map(([entry, atMs, what, day, live, unsure, pipped, none]) => {
      return { entry, atMs, lot: lot.id, what, day, live, unsure, pipped, none };
    }),
  };
}

function moveRow(move: Move): MoveRow {
  const { entry, atMs, source, target, n, why, day, cause, place, helped, weak } = move;
  return [entry, atMs, source, target, n, why, day, cause, place, helped, weak];
}

function moveOf(row: MoveRow, lot: string | null, among: readonly string[]): Move {
  const [entry, atMs, source, target, n, why, day, cause, place, helped, weak] = row;
  return { entry, atMs, lot, among, source, target, n, why, day, cause, place, helped, weak };
}

function amongRow(move: Move): AmongRow {
  return [move.among, moveRow(move)];
}

function amongMove([among, row]: AmongRow): Move {
  return moveOf(row, null, among);
}
