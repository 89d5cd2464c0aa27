// A bird as the screens tell of it: what it is called, its sex in the keeper's words, its age, its marks. Pure.
import { birds as words } from "../app/words/birds.ts";
import { tagInWords, websInWords } from "../app/words/marks.ts";
import { type Region, regionOf, termsOf } from "../app/words/region.ts";
import { sexCount, sexWord } from "../app/words/sexes.ts";
import { birdId, type OneBird } from "../book/birds.ts";
import type { Left } from "../book/bodies.generated.ts";
import { apart } from "../book/chores-apart.ts";
import { marksOfBirds } from "../book/marks-of-birds.ts";
import type { Standing } from "../book/standing.ts";
import { patternOf } from "../trade/marks.ts";
import { familyName, unknownFamily } from "./names.ts";
import { daysFrom } from "./told-day.ts";

const WEEKS_FROM_DAYS = 70;

export const regionIn = ({ keeper }: Pick<Standing, "keeper">): Region => regionOf(keeper.region);

/** The region's word for a leg ring. */
export const ringWord = (standing: Pick<Standing, "keeper">): string => termsOf(regionIn(standing)).ring;

export function speciesOfBird({ families, rootOf }: Standing, { body }: OneBird): string {
  const family = families.get(rootOf.get(body.family ?? "") ?? body.family ?? "");
  return body.species ?? family?.species ?? "chicken";
}

export const sexOf = (standing: Standing, bird: OneBird): string =>
  sexWord(bird.body.sex, speciesOfBird(standing, bird), regionIn(standing));

/** "5 cocks, 17 hens, 2 not sexed". */
export function sexesIn(standing: Standing, list: readonly OneBird[]): string {
  const [first] = list;
  const species = first ? speciesOfBird(standing, first) : "chicken";
  const mixed = list.some((one) => speciesOfBird(standing, one) !== species);
  return (["male", "female", "unknown"] as const)
    .map((sex) => ({ sex, n: list.filter(({ body }) => body.sex === sex).length }))
    .filter(({ n }) => n > 0)
    .map(({ sex, n }) => sexCount(n, sex, mixed ? "" : species, regionIn(standing)))
    .join(", ");
}

/** The family's own name, or that nobody knows it. */
export const familyOfBird = (standing: Standing, { body }: OneBird): string => {
  const family = body.family ? (standing.rootOf.get(body.family) ?? body.family) : null;
  return family ? familyName(standing, family) : unknownFamily(standing);
};

/** "63 days", "14 weeks"; empty where nobody knows when it hatched. */
export function ageTold(hatchedOn: string | null | undefined, today: string): string {
  if (!hatchedOn) return "";
  const days = daysFrom(hatchedOn, today);
  if (!(days >= 0)) return "";
  return days < WEEKS_FROM_DAYS ? words.days(days) : words.weeks(Math.floor(days / 7));
}

/** Everything a bird wears: what it was written down with, and what it was given later in its place. */
export function marksOfBird(standing: Standing, bird: OneBird): string[] {
  const marks = marksOfBirds(standing).get(bird.id) ?? [];
  const webs = patternOf(marks.flatMap((mark) => mark.webs));
  const tags = marks.flatMap(({ tag }) => (tag ? [tagInWords(tag, ringWord(standing))] : []));
  return [...tags, ...(webs.length > 0 ? [websInWords(webs)] : [])];
}

/** Until when a bird that came is kept apart, where that day has not passed. */
export function apartUntil(standing: Standing, bird: string, today: string): string | null {
  const [until = ""] = apart(standing).get(bird) ?? [];
  return until >= today ? until : null;
}

/** How a bird left last, or null where it never did. */
export function lastLeft(standing: Standing, bird: string): Readonly<Left> | null {
  const own = (standing.heads.left ?? []).filter(({ body }) => birdId(standing, body.bird) === bird);
  return (
    own
      .map(({ body }) => body)
      .sort((a, b) => (a.on < b.on ? -1 : 1))
      .at(-1) ?? null
  );
}
