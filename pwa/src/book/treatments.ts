/**
 * Treatments and the days until which eggs and meat are not for eating. Those days are typed from the label or by the
 * vet; nothing here works one out. The day that was typed still counts.
 */
import { birdId, lotOf, type OneBird } from "./birds.ts";
import type { Treated } from "./bodies.generated.ts";
import { pensOn } from "./pen-of.ts";
import type { Standing } from "./standing.ts";

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

/** Whether it is given on a day, or eggs or meat are not for eating yet. */
export function matters({ body }: Treatment, day: string): boolean {
  if (day < body.from.slice(0, 10)) return false;
  const given = Boolean(body.until) && day <= (body.until ?? "").slice(0, 10);
  return given || holds(body.no_eggs_until, day) || holds(body.no_meat_until, day);
}

/** Treatments after which eggs are not for eating on a day. */
export function eggsHeldBack(standing: Standing, day: string): Treatment[] {
  return treatmentsOf(standing).filter(
    ({ body }) => body.from.slice(0, 10) <= day && holds(body.no_eggs_until, day),
  );
}

/** Those that concern a bird: itself, the batch it surely came from, or the place its pen stood in while it was given. */
export function treatmentsOfBird(standing: Standing, bird: OneBird): Treatment[] {
  return treatmentsOf(standing).filter(({ body }) => {
    if (body.bird) return birdId(standing, body.bird) === bird.id;
    if (body.lot) return body.lot === lotOf(bird.body);
    const pen = pensOn(standing, body.from.slice(0, 10)).get(bird.id);
    return Boolean(body.place && pen?.place) && isSame(standing, body.place, pen?.place);
  });
}

function holds(until: string | null | undefined, day: string): boolean {
  return Boolean(until) && day <= (until ?? "");
}

function isSame({ rootOf }: Standing, a: string | null | undefined, b: string | null | undefined): boolean {
  const root = (name: string | null | undefined) => (name ? (rootOf.get(name) ?? name) : null);
  return root(a) !== null && root(a) === root(b);
}
