/**
 * What cannot be about chicks and birds: weights beyond sense, days before the hatch, one band on two living birds.
 * Kept and told beside the problems of the fold. Mirrors server/broodline/book/flock_checks.py over
 * tests/vectors/flock_checks.json.
 */
import table from "@tables/growth.json";
import { birdId, whereabouts } from "./birds.ts";
import type { Tag } from "./bodies.generated.ts";
import { byAscii } from "./code-points.ts";
import { hatchedMs, noonMs, wholeDays } from "./hatch-day.ts";
import { DAY_MS } from "./moments.ts";
import { inOrder, type Problem } from "./problems.ts";
import { comesOut } from "./stages.ts";
import type { Lot, Standing } from "./standing.ts";

type Code = keyof typeof table.problems;

const YOUNG = ["hatched", "brooding", "growing"];

/** What does not add up in a book: the fold's problems and those about chicks and birds. */
export function allProblems(standing: Standing): readonly Problem[] {
  return inOrder([...standing.problems, ...checkFlock(standing)]);
}

/** Whether a bird of that age (null: not known) can weigh so much. */
export function isSensible(massG: number, ageDays: number | null): boolean {
  const row = ageDays === null ? undefined : table.heaviest.find(({ to_day }) => ageDays <= to_day);
  return table.lightest.value <= massG && massG <= (row?.mass.value ?? table.grown.value);
}

/** Days since a lot hatched at noon of a day; null where nobody wrote it. */
export function ageOn(standing: Standing, lot: Lot | undefined, on: string): number | null {
  const bornMs = lot === undefined ? null : hatchedMs(standing, lot);
  const dayMs = noonMs(on);
  return bornMs === null || dayMs === null ? null : Math.max(0, wholeDays(bornMs, dayMs));
}

function checkFlock(standing: Standing): Problem[] {
  return [
    ...checkWeights(standing),
    ...checkDays(standing),
    ...checkMoves(standing),
    ...checkBands(standing),
  ];
}

/** Moves of chicks more than a day before the first of their lot hatched. */
function checkMoves(standing: Standing): Problem[] {
  return [...standing.lots.values()].flatMap((lot) => {
    const firstMs = firstOutMs(lot);
    if (firstMs === null) return [];
    return lot.moves
      .filter((move) => YOUNG.includes(move.source) && move.atMs < firstMs - DAY_MS)
      .map((move) => told("before_hatch", move.entry, { family: familyOf(standing, lot) }));
  });
}

/** The heaviest odd weight of an entry is told: one slip makes one Problem. */
function checkWeights(standing: Standing): Problem[] {
  return (standing.heads.weighed ?? []).flatMap(({ id, body }) => {
    const age = ageOn(standing, standing.lots.get(body.lot ?? ""), body.on);
    const odd = (body.birds ?? []).map((one) => one.mass_g).filter((mass) => !isSensible(mass, age));
    if (odd.length === 0) return [];
    return [told("weight_odd", id, { mass: Math.floor(Math.max(...odd) + 0.5), age: age ?? "?" })];
  });
}

/** Weights and marks of a lot more than a day before its chicks hatched. */
function checkDays(standing: Standing): Problem[] {
  const dated = [...(standing.heads.weighed ?? []), ...(standing.heads.marked ?? [])];
  return dated.flatMap(({ id, body }) => {
    const lot = standing.lots.get(body.lot ?? "");
    const dayMs = body.on ? noonMs(body.on) : null;
    if (lot === undefined || dayMs === null) return [];
    const firstMs = lot.came ? hatchedMs(standing, lot) : firstOutMs(lot);
    if (firstMs === null || dayMs >= firstMs - DAY_MS) return [];
    return [told("before_hatch", id, { family: familyOf(standing, lot) })];
  });
}

/** Bands with a text that two birds wear, neither of which is gone; told of the later entry. */
function checkBands(standing: Standing): Problem[] {
  const where = whereabouts(standing, null);
  const replaced = new Set(
    (standing.heads.marked ?? []).flatMap(({ body: { replaces } }) =>
      replaces ? [standing.rootOf.get(replaces) ?? replaces] : [],
    ),
  );
  const worn = new Map<string, { readonly words: string; readonly wearers: Map<string, string> }>();
  for (const [bird, tag, root, id] of tagsOf(standing)) {
    const wearer = birdId(standing, bird);
    if (!tag.text || where.get(wearer) === "gone" || replaced.has(root)) continue;
    const parts = [tag.kind, tag.colour ?? "", tag.leg ?? "", tag.text];
    const key = JSON.stringify(parts);
    const band = worn.get(key) ?? { words: parts.filter(Boolean).join(" "), wearers: new Map() };
    const known = band.wearers.get(wearer);
    band.wearers.set(wearer, known !== undefined && known > id ? known : id);
    worn.set(key, band);
  }
  return [...worn.values()].flatMap(({ words, wearers }) =>
    [...wearers.values()]
      .sort(byAscii)
      .slice(1)
      .map((entry) => told("band_twice", entry, { band: words })),
  );
}

/** Every band a bird was written down with, or was given later. */
function tagsOf({ heads }: Standing): (readonly [bird: string, tag: Tag, root: string, id: string])[] {
  const first = (heads.bird ?? []).flatMap(({ root, id, body }) =>
    (body.tags ?? []).map((tag) => [root, tag, root, id] as const),
  );
  const later = (heads.marked ?? []).flatMap(({ root, id, body }) =>
    isThere(body.bird) && isThere(body.tag) ? [[body.bird, body.tag, root, id] as const] : [],
  );
  return [...first, ...later];
}

function firstOutMs(lot: Lot): number | null {
  const out = lot.moves.filter(comesOut).map((move) => move.atMs);
  return out.length > 0 ? Math.min(...out) : null;
}

function familyOf({ families }: Standing, lot: Lot): string {
  return families.get(lot.family ?? "")?.name ?? "?";
}

function isThere<T>(value: T | null | undefined): value is T {
  return value !== null && value !== undefined;
}

function told(code: Code, entry: string, names: Readonly<Record<string, string | number>>): Problem {
  const { message, remedy } = table.problems[code];
  // One after the other, each wherever it stands, as the server does: a name may hold braces itself.
  const said = Object.entries(names).reduce(
    (text, [name, value]) => text.replaceAll(`{${name}}`, () => String(value)),
    message,
  );
  return { code, entry, message: said, remedy };
}
