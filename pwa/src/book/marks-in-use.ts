/** Who wears which mark now: chicks by batch, birds one by one; and which marks could be taken for one another. */
import { localDate } from "../trade/calendar.ts";
import { type Pattern, patternKey, patternOf } from "../trade/marks.ts";
import { birdsOf, type OneBird } from "./birds.ts";
import { living } from "./marks.ts";
import { marksOfBirds } from "./marks-of-birds.ts";
import { type Mark, marksOfLots, replacedMarks } from "./marks-of-lots.ts";
import { heldMs } from "./moments.ts";
import type { Lot, Standing } from "./standing.ts";

type Tag = NonNullable<Mark["tag"]>;

/**
 * Chicks of one batch, or one bird, with one mark. n: how many that are alive wear it. kin: species and breed, by which
 * marks are told apart; season: of the hatch, or null where nobody knows it.
 */
export interface Worn {
  readonly lot: string | null;
  readonly bird: string | null;
  readonly family: string | null;
  readonly n: number;
  readonly kin: string;
  readonly season: number | null;
  readonly webs: Pattern;
  readonly tag: Tag | null;
}

/** Every mark that living chicks and birds wear. A mark that another one replaced is worn no more. */
export function wornNow(standing: Standing): readonly Worn[] {
  return [...wornByChicks(standing), ...wornByBirds(standing)];
}

/** Those that could be confused with a mark of this batch: living, of its breed and season, and of another batch. */
export function besideLot(worn: readonly Worn[], standing: Standing, lot: Lot): readonly Worn[] {
  const kin = kinOf(standing, lot.family);
  const season = seasonOfLot(standing, lot);
  const isNear = (one: Worn) => one.season === null || season === null || one.season === season;
  return worn.filter((one) => one.lot !== lot.id && one.kin === kin && isNear(one));
}

/** Those that could be confused with a mark of this bird: living, of its breed and season, and not its own. */
export function besideBird(worn: readonly Worn[], standing: Standing, bird: OneBird): readonly Worn[] {
  const kin = kinOfBird(standing, bird.body);
  const season = seasonOfBird(standing, bird.body);
  const isNear = (one: Worn) => one.season === null || season === null || one.season === season;
  return worn.filter((one) => one.bird !== bird.id && one.kin === kin && isNear(one));
}

/** Patterns of webs in use, each once. */
export function patternsIn(worn: readonly Worn[]): readonly Pattern[] {
  const punched = worn.filter(({ webs }) => webs.length > 0);
  return [...new Map(punched.map(({ webs }) => [patternKey(webs), webs])).values()];
}

function wornByChicks(standing: Standing): Worn[] {
  const isGone = replacedMarks(standing);
  return [...marksOfLots(standing.heads)].flatMap(([name, marks]) => {
    const lot = standing.lots.get(name);
    const alive = lot === undefined ? 0 : living(lot);
    if (lot === undefined || alive === 0) return [];
    const about = {
      lot: name,
      bird: null,
      family: lot.family,
      kin: kinOf(standing, lot.family),
      season: seasonOfLot(standing, lot),
    };
    const seen = new Map<string, Worn>();
    for (const mark of marks) {
      if (mark.recheck || isGone(mark.entry)) continue;
      const webs = patternOf(mark.webs);
      const key = JSON.stringify([webs, mark.tag]);
      const n = Math.min(alive, (seen.get(key)?.n ?? 0) + (mark.n ?? alive));
      seen.set(key, { ...about, n, webs, tag: mark.tag });
    }
    return [...seen.values()];
  });
}

function wornByBirds(standing: Standing): Worn[] {
  const given = marksOfBirds(standing);
  return [...birdsOf(standing, null).values()].flatMap((bird): Worn[] => {
    if (bird.where === "gone") return [];
    const marks = given.get(bird.id) ?? [];
    const webs = patternOf(marks.flatMap((mark) => mark.webs));
    const about = {
      lot: null,
      bird: bird.id,
      family: bird.body.family ?? null,
      n: 1,
      kin: kinOfBird(standing, bird.body),
      season: seasonOfBird(standing, bird.body),
    };
    const tags = marks.flatMap((mark) => mark.tag ?? []);
    if (tags.length === 0) return webs.length === 0 ? [] : [{ ...about, webs, tag: null }];
    return tags.map((tag) => ({ ...about, webs, tag }));
  });
}

function kinOfBird(standing: Standing, { family, species, breed }: OneBird["body"]): string {
  if (family) return kinOf(standing, family);
  return breed ? `${species ?? ""}\n${breed.trim().toLowerCase()}` : "";
}

function seasonOfBird(standing: Standing, { hatched_on }: OneBird["body"]): number | null {
  return hatched_on ? seasonOfDate(standing, hatched_on) : null;
}

function kinOf({ families, rootOf }: Standing, family: string | null): string {
  const known = families.get(rootOf.get(family ?? "") ?? family ?? "");
  return known === undefined ? "" : `${known.species}\n${known.breed.trim().toLowerCase()}`;
}

/** The season a batch was set in, or came in. */
function seasonOfLot(standing: Standing, lot: Lot): number | null {
  const setting = lot.setting === null ? undefined : standing.settings.get(lot.setting);
  if (setting !== undefined) {
    return seasonOfDate(standing, localDate(heldMs(setting.setAtMs), standing.keeper.zone));
  }
  const came = (standing.heads.came ?? []).find(({ body }) => body.lot === lot.id);
  return came === undefined ? null : seasonOfDate(standing, came.body.hatched_on ?? came.body.on);
}

/** Named by the year it starts in, in the keeper's month. */
function seasonOfDate({ keeper }: Standing, date: string): number {
  const year = Number(date.slice(0, 4));
  return Number(date.slice(5, 7)) >= (keeper.season_starts ?? 1) ? year : year - 1;
}
