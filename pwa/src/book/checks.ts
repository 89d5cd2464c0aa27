/** What does not add up in a book, each as a Problem with a remedy. Checks read; they change no count. */
import { byAscii, byCodePoint } from "./code-points.ts";
import type { Refer } from "./founding.ts";
import { DAY_MS } from "./moments.ts";
import { namedBy } from "./moves.ts";
import { type Problem, problem, stageWords } from "./problems.ts";
import { mayMove } from "./stages.ts";
import type { Head, Lot, Move, Standing } from "./standing.ts";
import { overdrawn } from "./tied-sets.ts";

/** What the checks read. */
export type Book = Pick<Standing, "heads" | "families" | "lots" | "settings"> & { readonly refer: Refer };

/** Moves outside the table, to nowhere, before the setting, or among lots not all of one setting. */
export function checkMoves(moves: readonly Move[], book: Book): Problem[] {
  return moves.flatMap((move) => checkMove(move, book));
}

function checkMove(move: Move, book: Book): Problem[] {
  const found: Problem[] = [];
  const named = lotsNamed(move, book);
  const family = () => familyWords(book, named);
  if (move.source === move.target) {
    if (move.place === null) {
      const names = { n: move.n, family: family(), from: stageWords(move.source) };
      found.push(problem("move_nowhere", move.entry, names));
    }
  } else if (!mayMove(move.source, move.target)) {
    const stages = { from: stageWords(move.source), to: stageWords(move.target) };
    found.push(problem("move_not_allowed", move.entry, { n: move.n, family: family(), ...stages }));
  }
  const of = named[0]?.setting ?? null;
  const isOfOne = named.every((lot) => lot.setting === of);
  if (!isOfOne || (move.lot === null && named.some(({ came }) => came)))
    found.push(problem("among_across_settings", move.entry));
  if (named.some(isAstray)) found.push(problem("lot_without_setting", move.entry));
  const setting = isOfOne && of !== null ? book.settings.get(of) : undefined;
  if (setting !== undefined && move.atMs < setting.setAtMs - DAY_MS) {
    found.push(problem("before_setting", move.entry, { family: family() }));
  }
  return found;
}

/** Stages below zero, in a lot or in a setting as a whole. */
export function checkAccounts(book: Book): Problem[] {
  const found: Problem[] = [];
  for (const lot of book.lots.values()) {
    if (isAstray(lot)) continue;
    for (const [stage, n] of belowZero(lot)) {
      const names = { n: -n, family: familyWords(book, [lot]), stage: stageWords(stage) };
      found.push(problem("below_zero", lastTaken(lot.moves, stage) ?? null, names));
    }
  }
  for (const setting of book.settings.values()) {
    const lots = setting.lots.flatMap((name) => book.lots.get(name) ?? []);
    if (belowZero(setting).length === 0) {
      for (const some of overdrawn(lots, setting.among)) {
        const taken = setting.among.filter((move) => move.among.every((lot) => some.has(lot)));
        const entry =
          taken
            .map((move) => move.entry)
            .sort(byAscii)
            .at(-1) ?? null;
        found.push(
          problem("below_zero_among", entry, {
            family: familyWords(
              book,
              lots.filter(({ id }) => some.has(id)),
            ),
          }),
        );
      }
    }
    const shown = new Set(lots.flatMap((lot) => belowZero(lot).map(([stage]) => stage)));
    for (const [stage, n] of belowZero(setting)) {
      if (shown.has(stage)) continue;
      const entry = lastTaken(setting.among, stage) ?? setting.id;
      found.push(problem("below_zero_setting", entry, { n: -n, stage: stageWords(stage) }));
    }
  }
  return found;
}

/** Looks at eggs that stand elsewhere, or nowhere. */
export function checkLooks(astray: readonly Head<"looked">[], book: Book): Problem[] {
  const found = astray.map((head) => problem("lot_without_setting", head.id));
  for (const { id, body } of book.heads.looked ?? []) {
    const lot = book.lots.get(body.lot);
    if (lot !== undefined && lot.setting !== null && book.refer(body.setting) !== lot.setting) {
      found.push(problem("wrong_setting", id, { family: familyWords(book, [lot]) }));
    }
  }
  return found;
}

/** Physical counts that differ from the book, until a later count agrees or a move settles them. */
export function checkCounts(book: Book): Problem[] {
  const { heads, refer } = book;
  const settled = new Set((heads.moved ?? []).map(({ body }) => (body.settles ? refer(body.settles) : null)));
  const counts = heads.counted ?? [];
  const agreed = new Map<string, string>();
  for (const { root, body } of counts) {
    // Counts come in order of identity, so the last one that agrees is the latest.
    if (body.n === body.ledger) agreed.set(counted(body.lot, body.stage), root);
  }
  return counts.flatMap(({ root, id, body }) => {
    const { lot: name, stage, n, ledger } = body;
    const lot = book.lots.get(name);
    if (lot === undefined || isAstray(lot)) return [problem("lot_without_setting", id)];
    if (n === ledger || settled.has(root) || root <= (agreed.get(counted(name, stage)) ?? "")) return [];
    const names = { n, family: familyWords(book, [lot]), stage: stageWords(stage), ledger };
    return [problem("count_differs", id, names)];
  });
}

function lotsNamed(move: Move, { lots }: Book): readonly Lot[] {
  return namedBy(move).flatMap((name) => lots.get(name) ?? []);
}

function counted(lot: string, stage: string): string {
  return JSON.stringify([lot, stage]);
}

/** A lot that moves or counts name and no setting, and that did not come either. */
export function isAstray(lot: Lot): boolean {
  return lot.setting === null && !lot.came;
}

function belowZero(of: Pick<Lot, "stages">): [stage: string, n: number][] {
  return [...of.stages].filter(([, n]) => n < 0);
}

/** The greatest id among the entries that took from a stage. */
function lastTaken(moves: readonly Move[], stage: string): string | undefined {
  const taken = moves.filter((move) => move.source === stage).map((move) => move.entry);
  return taken.sort(byAscii).at(-1);
}

/** The names of the families that lots belong to, or "?" where nobody knows. */
export function familyWords(book: Book, lots: readonly Lot[]): string {
  const names = lots.map((lot) => book.families.get(lot.family ?? "")?.name ?? "?");
  return [...new Set(names)].sort(byCodePoint).join(" / ");
}
