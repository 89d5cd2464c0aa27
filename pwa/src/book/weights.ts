/**
 * Birds on the scales, each in the group it may be compared with: its batch and its sex. The rule is the server's
 * (reports/growth.py): the batch written with the weight, else the one the bird came from for certain; the bird's own
 * sex, else the one written with the weight. Weights beyond sense, or dated before the hatch, are problems
 * and belong to no group.
 */
import { birdId, lotOf, type OneBird } from "./birds.ts";
import type { Bird } from "./bodies.generated.ts";
import { isSensible } from "./flock-checks.ts";
import { ageOn, isBeforeHatch, isUnhatched } from "./hatch-ages.ts";
import { noonMs } from "./hatch-day.ts";
import type { Standing } from "./standing.ts";

export type Sex = Bird["sex"];

/** lot: "" where nobody wrote it. bird: its identity, or null. entry: the entry's id, to take it back. */
export interface Weight {
  readonly entry: string;
  readonly lot: string;
  readonly sex: Sex;
  readonly on: string;
  readonly ageDays: number | null;
  readonly massG: number;
  readonly bird: string | null;
  readonly sensible: boolean;
}

/** Every weight in the book, in order of entries. */
export function weightsOf(standing: Standing, birds: ReadonlyMap<string, OneBird>): Weight[] {
  return (standing.heads.weighed ?? []).flatMap(({ root, body }) =>
    (body.birds ?? []).map((one): Weight => {
      const name = one.bird ? birdId(standing, one.bird) : null;
      const bird = name === null ? undefined : birds.get(name)?.body;
      const lot = body.lot || lotOf(bird) || "";
      const of = standing.lots.get(lot);
      const ageDays = ageOn(standing, of, body.on);
      const isEarly = isBeforeHatch(standing, of, noonMs(body.on)) || isUnhatched(standing, bird, body.on);
      return {
        entry: root,
        lot,
        sex: bird && bird.sex !== "unknown" ? bird.sex : (body.sex ?? "unknown"),
        on: body.on,
        ageDays,
        massG: one.mass_g,
        bird: name,
        sensible: isSensible(one.mass_g, ageDays) && !isEarly,
      };
    }),
  );
}

/** Those that count: the sensible ones, of a bird weighed more than once on a day the last alone. */
export function counted(weights: readonly Weight[]): Weight[] {
  const sensible = weights.filter((one) => one.sensible);
  const key = ({ on, bird }: Weight) => `${on} ${bird}`;
  const last = new Map(sensible.map((one) => [key(one), one]));
  return sensible.filter((one) => one.bird === null || last.get(key(one)) === one);
}
