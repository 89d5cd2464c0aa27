/**
 * How old chicks and birds are on a day, and what is dated before they can have been out of the shell. Mirrors
 * server/broodline/book/hatch_ages.py over tests/vectors/flock_checks.json.
 */
import { lotOf } from "./birds.ts";
import type { Bird } from "./bodies.generated.ts";
import { hatchedMs, hatchedOn, noonMs } from "./hatch-day.ts";
import { DAY_MS, dayNumber } from "./moments.ts";
import { outOfShell } from "./out-of-shell.ts";
import type { Lot, Standing } from "./standing.ts";

/** Days of the holding's calendar since a lot hatched, 0 before it; null where nobody wrote it. */
export function ageOn(standing: Standing, lot: Lot | undefined, on: string): number | null {
  const born = dayNumber((lot && hatchedOn(standing, lot)) ?? "");
  const day = dayNumber(on);
  return born === null || day === null ? null : Math.max(0, day - born);
}

/** When the first that may be of a lot was out; of chicks that came, what was written; null where nothing was. */
export function firstOutMs(standing: Standing, lot: Lot): number | null {
  if (lot.came) return hatchedMs(standing, lot);
  const setting = lot.setting === null ? undefined : standing.settings.get(lot.setting);
  const shared = (setting?.among ?? []).filter(({ among }) => among.includes(lot.id));
  return outOfShell([...lot.moves, ...shared])[0]?.atMs ?? null;
}

/** Whether a moment lies more than a day before the first of a lot was out. */
export function isBeforeHatch(standing: Standing, lot: Lot | undefined, atMs: number | null): boolean {
  const firstMs = lot === undefined ? null : firstOutMs(standing, lot);
  return firstMs !== null && atMs !== null && atMs < firstMs - DAY_MS;
}

/** Whether a bird was not out on a day: by the day written with it, or by the one lot it can be of. */
export function isUnhatched(standing: Standing, bird: Readonly<Bird> | undefined, on: string): boolean {
  if (bird === undefined) return false;
  const isWritten = Boolean(bird.hatched_on) && on < (bird.hatched_on ?? "");
  return isWritten || isBeforeHatch(standing, standing.lots.get(lotOf(bird) ?? ""), noonMs(on));
}
