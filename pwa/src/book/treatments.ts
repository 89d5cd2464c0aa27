/**
 * Treatments and the days until which eggs and meat are not for eating. Those days are typed from the label or by the
 * vet; nothing here works one out. The day that was typed still counts. A treatment of a place is of all that stood in
 * it on any day from the first it was given to the last, wherever they stand now.
 */
import { localDate } from "../trade/calendar.ts";
import { birdId, birdsOf, type OneBird } from "./birds.ts";
import type { Treated } from "./bodies.generated.ts";
import { heldMs } from "./moments.ts";
import { pensNaming, stoodIn } from "./pen-of.ts";
import type { Lot, Standing } from "./standing.ts";
import { staysOf } from "./whereabouts.ts";

/** A treatment. entry: the entry's identity. */
export interface Treatment {
  readonly entry: string;
  readonly body: Readonly<Treated>;
}

/** All treatments, the latest first. */
export function treatmentsOf({ heads }: Standing): Treatment[] {
  return (heads.treated ?? [])
    .map(({ root, body }) => ({ entry: root, body }))
    .sort((a, b) => (a.body.from < b.body.from ? 1 : -1));
}

/** The first and the last day on which it is given; without a last one it is given once. */
export function givenOn({ from, until }: Readonly<Treated>): readonly [first: string, last: string] {
  return [from.slice(0, 10), (until ?? from).slice(0, 10)];
}

/** Whether it is given on a day, or eggs or meat are not for eating yet. */
export function matters({ body }: Treatment, day: string): boolean {
  const [first, last] = givenOn(body);
  if (day < first) return false;
  return day <= last || holds(body.no_eggs_until, day) || holds(body.no_meat_until, day);
}

/** Treatments after which eggs are not for eating on a day. */
export function eggsHeldBack(standing: Standing, day: string): Treatment[] {
  return treatmentsOf(standing).filter(
    ({ body }) => body.from.slice(0, 10) <= day && holds(body.no_eggs_until, day),
  );
}

/** Those that concern the chicks of a batch: itself, or a place in which some of it stood while it was given. */
export function treatmentsOfLot(standing: Standing, lot: Lot): Treatment[] {
  const stays = staysInDays(standing, lot);
  return treatmentsOf(standing).filter(({ body }) => {
    if (body.lot === lot.id) return true;
    const place = placeOf(standing, body);
    const [first, last] = givenOn(body);
    return stays.some((stay) => stay.place === place && stay.since <= last && first <= stay.until);
  });
}

/**
 * Those that concern a bird: itself, a batch it came from or may have come from, or a place in which it stood while it
 * was given: in its pens, under its own eggs, or among its batch until it was penned first.
 */
export function treatmentsOfBird(standing: Standing, bird: OneBird): Treatment[] {
  const lots = (bird.body.lots ?? []).flatMap(({ lot }) => standing.lots.get(lot) ?? []);
  const named = new Set((bird.body.lots ?? []).map(({ lot }) => lot));
  const stays = lots.flatMap((lot) => staysInDays(standing, lot));
  const pens = pensNaming(standing, bird.id);
  const penned = pens[0]?.since ?? FOREVER;
  return treatmentsOf(standing).filter(({ body }) => {
    if (body.bird && birdId(standing, body.bird) === bird.id) return true;
    if (body.lot && named.has(body.lot)) return true;
    const place = placeOf(standing, body);
    if (place === null) return false;
    const [first, last] = givenOn(body);
    const sits = standing.places.get(place)?.bird;
    return (
      Boolean(sits && birdId(standing, sits) === bird.id) ||
      stoodIn(pens, place, first, last) ||
      stays.some(
        (stay) =>
          stay.place === place &&
          stay.since <= last &&
          first <= stay.until &&
          later(first, stay.since) <= penned,
      )
    );
  });
}

/**
 * Treatments after which eggs of a family are not for eating: on a day, or laid on a day on which they were not. Where
 * nobody can say of which family the hens are that were treated, they may be of any.
 */
export function eggsOfFamilyHeldBack(
  standing: Standing,
  family: string,
  day: string,
  laid: readonly string[],
): Treatment[] {
  return treatmentsOf(standing).filter((one) => {
    const { from, no_eggs_until } = one.body;
    const isHeld = (on: string) => from.slice(0, 10) <= on && holds(no_eggs_until, on);
    if (![day, ...laid].some(isHeld)) return false;
    const families = familiesOf(standing, one);
    return families === null || families.has(family);
  });
}

/** The families whose eggs treated hens lay until eggs are for eating again; null where that is not known of all. */
function familiesOf(standing: Standing, treatment: Treatment): ReadonlySet<string> | null {
  const root = (id: string | null | undefined) => (id ? (standing.rootOf.get(id) ?? id) : null);
  const isOf = (own: readonly Treatment[]) => own.some(({ entry }) => entry === treatment.entry);
  const { from, no_eggs_until } = treatment.body;
  const until = no_eggs_until ?? from;
  const lots = [...standing.lots.values()].filter((lot) => isOf(treatmentsOfLot(standing, lot)));
  const birds = [...birdsOf(standing, null).values()].filter((bird) =>
    isOf(treatmentsOfBird(standing, bird)),
  );
  const ofBirds = birds.flatMap((bird) => {
    const pens = pensNaming(standing, bird.id).filter(
      (pen) => pen.since <= until && from.slice(0, 10) <= (pen.until ?? FOREVER),
    );
    return pens.length > 0 ? pens.map((pen) => pen.family) : [root(bird.body.family)];
  });
  const found = [...lots.map((lot) => root(lot.family)), ...ofBirds];
  if (found.length === 0 || found.includes(null)) return null;
  return new Set(found.flatMap((family) => family ?? []));
}

const FOREVER = "9999-12-31";

/** Where a batch stood, in local days, both included. */
function staysInDays(standing: Standing, lot: Lot) {
  const day = (atMs: number) => localDate(heldMs(atMs), standing.keeper.zone);
  return staysOf(standing, lot).map(({ place, sinceMs, untilMs }) => ({
    place,
    since: day(sinceMs),
    until: untilMs === null ? FOREVER : day(untilMs),
  }));
}

const later = (one: string, other: string) => (one < other ? other : one);

function placeOf({ rootOf }: Standing, { place }: Readonly<Treated>): string | null {
  return place ? (rootOf.get(place) ?? place) : null;
}

function holds(until: string | null | undefined, day: string): boolean {
  return Boolean(until) && day <= (until ?? "");
}
