/**
 * The fold: any entries, in any order, give the standing. It never throws. Mirrors server/broodline/book/fold.py;
 * tests/vectors/fold.json binds both.
 *
 * entries -> trees of corrections -> heads that count -> lots founded -> moves and looks added up -> checks.
 */
import type { Bodies } from "./bodies.generated.ts";
import { checkAccounts, checkCounts, checkLooks, checkMoves } from "./checks.ts";
import { byCodePoint, sortedKeys } from "./code-points.ts";
import type { Entry } from "./entries.ts";
import { foundLots, type Refer } from "./founding.ts";
import { readHeads, treeProblems } from "./heads.ts";
import { checkMarks } from "./marks.ts";
import { momentMs } from "./moments.ts";
import {
  type Account,
  closeAccount,
  enterLooks,
  enterMoves,
  inTime,
  movesOf,
  openAccounts,
  totals,
} from "./moves.ts";
import { checkNames } from "./names.ts";
import { inOrder, type Problem, problem } from "./problems.ts";
import type { Head, Heads, Lot, Move, Setting, Standing } from "./standing.ts";
import { growTrees } from "./trees.ts";

const NO_KEEPER: Bodies["keeper"] = {
  holding: "",
  zone: "UTC",
  temperature: "C",
  mass: "g",
  season_starts: 1,
};

/** What any entries add up to. The same set gives the same standing, whatever its order or doubles. */
export function fold(entries: Iterable<Entry>): Standing {
  const steps = foldInSteps(entries);
  for (let step = steps.next(); ; step = steps.next()) if (step.done) return step.value;
}

/** The same fold, with a rest after each part of the work: a long book then holds up no finger on the screen. */
export function* foldInSteps(entries: Iterable<Entry>): Generator<void, Standing> {
  const trees = growTrees(entries);
  yield;
  const { heads, problems, newer } = readHeads(trees);
  const rootOf = new Map([...trees.rootOf].filter(([name, root]) => name !== root));
  const refer: Refer = (name) => rootOf.get(name) ?? name;
  yield;

  const families = bodiesByRoot(heads.family);
  const places = bodiesByRoot(heads.place);
  const founded = foundLots(heads, refer);
  const moves = movesOf(heads.moved ?? []);
  const accounts = openAccounts(founded.foundings, moves);
  yield;
  const among = enterMoves(accounts, moves);
  const setAtMs = new Map((heads.set ?? []).map((head) => [head.root, momentMs(head.body.set_at) ?? 0]));
  const astray = enterLooks(accounts, heads.looked ?? [], setAtMs);
  yield;
  const lots = closed(accounts);
  const settings = settingsOf(heads, lots, among, refer);
  const keepers = heads.keeper ?? [];
  const keeper = lastOf(keepers);

  yield;
  const book = { heads, families, places, lots, settings, refer };
  const wrongNames = checkNames(book);
  yield;
  const wrongMoves = checkMoves(moves, book);
  yield;
  const found: Problem[] = [
    ...problems,
    ...treeProblems(trees),
    ...founded.problems,
    ...wrongNames,
    ...wrongMoves,
    ...checkAccounts(book),
    ...checkLooks(astray, book),
    ...checkCounts(book),
    ...checkMarks(book),
    ...keepers.filter((head) => head !== keeper).map((head) => problem("several_keepers", head.id)),
  ];
  return {
    keeper: keeper?.body ?? NO_KEEPER,
    families,
    places,
    settings,
    lots,
    heads,
    rootOf,
    sameBird: sameBirds(heads.same ?? [], refer),
    problems: inOrder(found),
    awaited: trees.awaited,
    newer,
  };
}

function bodiesByRoot<K extends "family" | "place">(
  heads: readonly Head<K>[] = [],
): ReadonlyMap<string, Readonly<Bodies[K]>> {
  return new Map(heads.map((head) => [head.root, head.body]));
}

function closed(accounts: ReadonlyMap<string, Account>): ReadonlyMap<string, Lot> {
  const lots = new Map<string, Lot>();
  for (const name of sortedKeys(accounts)) {
    const account = accounts.get(name);
    if (account !== undefined) lots.set(name, closeAccount(account));
  }
  return lots;
}

function lastOf(keepers: readonly Head<"keeper">[]): Head<"keeper"> | undefined {
  return keepers.reduce<Head<"keeper"> | undefined>(
    (last, head) => (last === undefined || head.id > last.id ? head : last),
    undefined,
  );
}

function settingsOf(
  heads: Heads,
  lots: ReadonlyMap<string, Lot>,
  among: ReadonlyMap<string, readonly Move[]>,
  refer: Refer,
): ReadonlyMap<string, Setting> {
  const locked = earliestLock(heads.locked ?? [], refer);
  const settings = new Map<string, Setting>();
  for (const { root, body } of heads.set ?? []) {
    const named = [...new Set(body.lots.map((lot) => lot.lot))].filter(
      (lot) => lots.get(lot)?.setting === root,
    );
    const moved = inTime(among.get(root) ?? []);
    const lock = locked.get(root);
    settings.set(root, {
      id: root,
      place: refer(body.place),
      species: body.species,
      setAtMs: momentMs(body.set_at) ?? 0,
      lots: named,
      lockdownDay: body.lockdown_day ?? null,
      note: body.note ?? null,
      lockedAtMs: lock?.atMs ?? null,
      lockedPlace: lock?.body.place ? refer(lock.body.place) : null,
      stages: totals(
        named.flatMap((lot) => lots.get(lot) ?? []),
        moved,
      ),
      among: moved,
    });
  }
  return settings;
}

function earliestLock(heads: readonly Head<"locked">[], refer: Refer): ReadonlyMap<string, Head<"locked">> {
  const locked = new Map<string, Head<"locked">>();
  for (const head of heads) {
    const setting = refer(head.body.setting);
    const sofar = locked.get(setting);
    const earlier =
      sofar === undefined || head.atMs < sofar.atMs || (head.atMs === sofar.atMs && head.id < sofar.id);
    if (earlier) locked.set(setting, head);
  }
  return locked;
}

/** For every bird that goes by several ids, the smallest of them. */
function sameBirds(heads: readonly Head<"same">[], refer: Refer): ReadonlyMap<string, string> {
  const leader = new Map<string, string>();
  const lead = (bird: string): string => {
    let first = bird;
    for (let next = leader.get(first); next !== undefined && next !== first; next = leader.get(first))
      first = next;
    return first;
  };
  for (const { body } of heads) {
    const birds = [refer(body.bird), refer(body.as)];
    for (const bird of birds) if (!leader.has(bird)) leader.set(bird, bird);
    const [smaller = "", larger = ""] = birds.map(lead).sort(byCodePoint);
    leader.set(larger, smaller);
  }
  return new Map(sortedKeys(leader).map((bird) => [bird, lead(bird)]));
}
