/**
 * Days of birds that cannot follow each other: gone before the hatch, or twice; ended before begun. Told beside
 * flock-checks, whose words these are too. Mirrors server/broodline/book/flock_days.py over
 * tests/vectors/flock_checks.json.
 */
import table from "@tables/growth.json";
import { birdId, lotOf, type OneBird } from "./birds.ts";
import { byCodePoint } from "./code-points.ts";
import { isUnhatched } from "./hatch-ages.ts";
import { hatchedMs, noonMs } from "./hatch-day.ts";
import { DAY_MS, momentMs } from "./moments.ts";
import type { Problem } from "./problems.ts";
import type { Standing } from "./standing.ts";

type Code = keyof typeof table.problems;
type Birds = ReadonlyMap<string, OneBird>;

const FOR_GOOD = ["died", "culled", "sold", "given"];
const DAY = "2026-03-08".length;

/** A Problem in the table's words, with names in their places. */
export function told(code: Code, entry: string, names: Readonly<Record<string, string | number>>): Problem {
  const { message, remedy } = table.problems[code];
  // One after the other, each wherever it stands, as the server does: a name may hold braces itself.
  const said = Object.entries(names).reduce(
    (text, [name, value]) => text.replaceAll(`{${name}}`, () => String(value)),
    message,
  );
  return { code, entry, message: said, remedy };
}

/** All days of birds, treatments, arrivals and pens that cannot be. */
export function checkDays(standing: Standing, birds: Birds): Problem[] {
  return [...checkHatch(standing, birds), ...checkLeft(standing, birds), ...checkEnds(standing)];
}

/** Birds written as hatched long before or after the only lot they can be of. */
function checkHatch(standing: Standing, birds: Birds): Problem[] {
  return (standing.heads.bird ?? []).flatMap(({ id, root, body }) => {
    const bird = birds.get(birdId(standing, root));
    const lot = standing.lots.get(lotOf(bird?.body) ?? "");
    const bornMs = lot === undefined ? null : hatchedMs(standing, lot);
    const dayMs = body.hatched_on ? noonMs(body.hatched_on) : null;
    if (bird === undefined || bornMs === null || dayMs === null) return [];
    const days = Math.floor(Math.abs(dayMs - bornMs) / DAY_MS);
    return days > table.hatch_apart.value ? [told("hatch_apart", id, { days, bird: bird.label })] : [];
  });
}

/** Birds that left before they hatched, or again on a later day without having come back. */
function checkLeft(standing: Standing, birds: Birds): Problem[] {
  const found: Problem[] = [];
  const moves = new Map<string, { on: string; turn: number; id: string; how: string }[]>();
  const add = (bird: OneBird, on: string, turn: number, id: string, how: string) =>
    moves.set(bird.id, [...(moves.get(bird.id) ?? []), { on, turn, id, how }]);
  for (const { id, body } of standing.heads.left ?? []) {
    const bird = birds.get(birdId(standing, body.bird));
    if (bird === undefined) continue;
    add(bird, body.on, 0, id, body.how);
    if (isUnhatched(standing, bird.body, body.on)) {
      found.push(told("bird_before_hatch", id, { so: "", bird: bird.label }));
    }
  }
  for (const { id, body } of standing.heads.came ?? []) {
    const bird = body.bird ? birds.get(birdId(standing, body.bird)) : undefined;
    if (bird !== undefined) add(bird, body.on, 1, id, "");
  }
  for (const [bird, of] of moves) {
    let since: string | null = null;
    of.sort((a, b) => byCodePoint(a.on, b.on) || a.turn - b.turn || byCodePoint(a.id, b.id));
    for (const { on, id, how } of of) {
      if (how && since !== null && on > since) {
        found.push(told("left_twice", id, { on: since, bird: birds.get(bird)?.label ?? "" }));
      }
      since = FOR_GOOD.includes(how) ? on : null;
    }
  }
  return found;
}

/** Treatments, their times of waiting, times apart and stays in a pen that end before they begin. */
function checkEnds({ heads }: Standing): Problem[] {
  const treated = (heads.treated ?? []).flatMap(({ id, body }) => {
    if (isBefore(body.until, body.from)) return [told("ends_early", id, { what: "The treatment" })];
    const isShort = isBefore(body.no_eggs_until, body.from) || isBefore(body.no_meat_until, body.from);
    return isShort ? [told("ends_early", id, { what: "The time without eggs or meat" })] : [];
  });
  const came = (heads.came ?? []).flatMap(({ id, body }) =>
    body.apart_until && body.apart_until < body.on
      ? [told("ends_early", id, { what: "The time apart" })]
      : [],
  );
  const penned = (heads.penned ?? []).flatMap(({ id, body }) =>
    isBefore(body.until, body.since) ? [told("ends_early", id, { what: "The time in the pen" })] : [],
  );
  return [...treated, ...came, ...penned];
}

/** A day beside a moment is held to it by its noon, a day either way: it is the keeper's day, the moment is not. */
function isBefore(until: string | null | undefined, since: string): boolean {
  if (!until) return false;
  if (until.length === DAY && since.length === DAY) return until < since;
  const slack = until.length === DAY || since.length === DAY ? DAY_MS : 0;
  const [untilMs, sinceMs] = [msOf(until), msOf(since)];
  return untilMs !== null && sinceMs !== null && untilMs < sinceMs - slack;
}

const msOf = (text: string) => (text.length === DAY ? noonMs(text) : momentMs(text));
