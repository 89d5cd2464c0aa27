/**
 * What cannot be about chicks and birds: weights beyond sense, days before the hatch, one band on two living birds; and
 * of their eggs more kept than were gathered. Kept and told beside the problems of the fold. Mirrors server/broodline/book/flock_checks.py over
 * tests/vectors/flock_checks.json.
 */
import table from "@tables/growth.json";
import { birdId, birdsOf, lotOf, type OneBird, whereabouts } from "./birds.ts";
import type { Tag } from "./bodies.generated.ts";
import { byAscii } from "./code-points.ts";
import { checkDays, told } from "./flock-days.ts";
import { ageOn, firstOutMs, isBeforeHatch, isUnhatched } from "./hatch-ages.ts";
import { noonMs } from "./hatch-day.ts";
import { inOrder, type Problem } from "./problems.ts";
import type { Lot, Standing } from "./standing.ts";

type Birds = ReadonlyMap<string, OneBird>;

const YOUNG = ["hatched", "brooding", "growing"];
const LEFT_OUT = "; the weight is left out of the means";

/** What does not add up in a book: the fold's problems and those about chicks and birds. */
export function allProblems(standing: Standing): readonly Problem[] {
  return inOrder([...standing.problems, ...checkFlock(standing)]);
}

/** Whether a bird of that age (null: not known) can weigh so much. */
export function isSensible(massG: number, ageDays: number | null): boolean {
  const row = ageDays === null ? undefined : table.heaviest.find(({ to_day }) => ageDays <= to_day);
  return table.lightest.value <= massG && massG <= (row?.mass.value ?? table.grown.value);
}

function checkFlock(standing: Standing): Problem[] {
  const birds = birdsOf(standing, null);
  return [
    ...checkWeights(standing, birds),
    ...checkMarks(standing, birds),
    ...checkMoves(standing),
    ...checkBands(standing),
    ...checkDays(standing, birds),
    ...checkGathered(standing),
  ];
}

/** Moves of chicks more than a day before the first of their lot, or of any lot they may be of, hatched. */
function checkMoves(standing: Standing): Problem[] {
  const own = [...standing.lots.values()].flatMap((lot) =>
    lot.moves
      .filter((move) => YOUNG.includes(move.source) && isBeforeHatch(standing, lot, move.atMs))
      .map((move) => told("before_hatch", move.entry, { family: familyOf(standing, lot), so: "" })),
  );
  const shared = [...standing.settings.values()].flatMap(({ among }) =>
    among.flatMap((move) => {
      const lots = move.among.flatMap((name) => standing.lots.get(name) ?? []);
      const known = lots.filter((lot) => firstOutMs(standing, lot) !== null);
      const isEarly = known.length > 0 && known.every((lot) => isBeforeHatch(standing, lot, move.atMs));
      if (!YOUNG.includes(move.source) || !isEarly) return [];
      const families = new Set(known.map((lot) => familyOf(standing, lot)));
      return [told("before_hatch", move.entry, { family: [...families].join(" and "), so: "" })];
    }),
  );
  return [...own, ...shared];
}

/** Of an entry the heaviest odd weight and the first before the hatch are told: one slip makes one Problem. */
function checkWeights(standing: Standing, birds: Birds): Problem[] {
  return (standing.heads.weighed ?? []).flatMap(({ id, body }) => {
    const weighed = (body.birds ?? []).map(({ bird, mass_g }) => {
      const known = bird ? birds.get(birdId(standing, bird)) : undefined;
      const lot = standing.lots.get(body.lot || lotOf(known?.body) || "");
      const age = ageOn(standing, lot, body.on);
      return { mass_g, age, early: early(standing, id, lot, known, body.on, LEFT_OUT) };
    });
    const odd = weighed.filter(({ mass_g, age }) => !isSensible(mass_g, age));
    const [first] = odd;
    const worst = first && odd.reduce((most, one) => (one.mass_g > most.mass_g ? one : most), first);
    const heaviest = worst && { mass: Math.floor(worst.mass_g + 0.5), age: worst.age ?? "?" };
    const tooEarly = weighed.find((one) => one.early !== null)?.early;
    return [...(heaviest ? [told("weight_odd", id, heaviest)] : []), ...(tooEarly ? [tooEarly] : [])];
  });
}

/** Marks of a lot or a bird more than a day before it hatched. */
function checkMarks(standing: Standing, birds: Birds): Problem[] {
  return (standing.heads.marked ?? []).flatMap(({ id, body }) => {
    if (!body.on) return [];
    const known = body.bird ? birds.get(birdId(standing, body.bird)) : undefined;
    const lot = standing.lots.get(body.lot || lotOf(known?.body) || "");
    return early(standing, id, lot, known, body.on, "") ?? [];
  });
}

/** What is dated before the hatch of its lot, or of the bird itself. so: what follows from it. */
function early(
  standing: Standing,
  entry: string,
  lot: Lot | undefined,
  bird: OneBird | undefined,
  on: string,
  so: string,
): Problem | null {
  if (lot !== undefined && isBeforeHatch(standing, lot, noonMs(on))) {
    return told("before_hatch", entry, { family: familyOf(standing, lot), so });
  }
  if (bird === undefined || !isUnhatched(standing, bird.body, on)) return null;
  return told("bird_before_hatch", entry, { so, bird: bird.label });
}

/**
 * Bands with a text that two birds wear, neither of which is gone; told of the later entry. Large and small letters and
 * spaces are one; a leg that was not written may be either.
 */
function checkBands(standing: Standing): Problem[] {
  const where = whereabouts(standing, null);
  const replaced = new Set(
    (standing.heads.marked ?? []).flatMap(({ body: { replaces } }) =>
      replaces ? [standing.rootOf.get(replaces) ?? replaces] : [],
    ),
  );
  const worn = new Map<string, { readonly id: string; readonly wearer: string; readonly tag: Tag }[]>();
  for (const [bird, tag, root, id] of tagsOf(standing)) {
    const wearer = birdId(standing, bird);
    const text = (tag.text ?? "").replaceAll(" ", "").toLowerCase();
    if (!text || where.get(wearer) === "gone" || replaced.has(root)) continue;
    const key = JSON.stringify([tag.kind, (tag.colour ?? "").toLowerCase(), text]);
    worn.set(key, [...(worn.get(key) ?? []), { id, wearer, tag }]);
  }
  return [...worn.values()].flatMap((bands) => {
    const sorted = bands.sort((a, b) => byAscii(a.id, b.id));
    const last = new Map(sorted.map((band) => [band.wearer, band]));
    const ordered = [...last.values()].sort((a, b) => byAscii(a.id, b.id));
    return ordered.flatMap(({ id, tag }, i) =>
      ordered.slice(0, i).some((other) => mayBeOneLeg(tag, other.tag))
        ? [told("band_twice", id, { band: bandWords(tag) })]
        : [],
    );
  });
}

/** Eggs gathered of which more were kept than there were. */
function checkGathered({ heads }: Standing): Problem[] {
  return (heads.gathered ?? []).flatMap(({ id, body: { kept, n } }) =>
    kept > n ? [told("kept_over", id, { kept, n })] : [],
  );
}

const mayBeOneLeg = (one: Tag, other: Tag) => !one.leg || !other.leg || one.leg === other.leg;

const bandWords = ({ kind, colour, leg, text }: Tag) => [kind, colour, leg, text].filter(Boolean).join(" ");

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

function familyOf({ families }: Standing, lot: Lot): string {
  return families.get(lot.family ?? "")?.name ?? "?";
}

function isThere<T>(value: T | null | undefined): value is T {
  return value !== null && value !== undefined;
}
