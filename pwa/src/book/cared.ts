/**
 * What a `care` makes done: a task at its place, on its date or later. One dated ahead puts the task off, for the birds
 * that stood there when it was written. Mirrors server/broodline/reports/cared.py, where the rule stands, over
 * tests/vectors/agenda.json.
 */
import { localDate } from "../trade/calendar.ts";
import type { Chore } from "./chores.ts";
import { dayNumber, heldMs, momentMs } from "./moments.ts";
import type { Head, Standing } from "./standing.ts";
import { covers, staysOf } from "./whereabouts.ts";

/** Whether a care, at the chore's place or for all places, makes it done. */
export function isCared(standing: Standing, { task, place, lots, since }: Chore): boolean {
  return caredOn(standing, task, place, lots ?? []).some((on) => on >= since);
}

/** The dates on which a care for a task was noted at a place, or for all places, as it counts for these lots. */
export function caredOn(standing: Standing, task: string, place: string, lots: readonly string[]): string[] {
  return caresAt(standing, place)
    .filter((care) => care.body.task === task && lots.every((lot) => countsFor(standing, care, place, lot)))
    .map((care) => onOf(standing, care));
}

/** Everything noted as done or put off at a place, or for all places. */
export function caresAt({ heads, rootOf }: Standing, place: string): Head<"care">[] {
  return (heads.care ?? []).filter(
    ({ body }) => !body.place || (rootOf.get(body.place) ?? body.place) === place,
  );
}

/** Whether a care at that place counts for the chicks of a lot. */
export function countsFor(standing: Standing, care: Head<"care">, place: string, lot: string): boolean {
  const isPutOff =
    Boolean(care.body.place) && onOf(standing, care) > localDate(heldMs(care.atMs), standing.keeper.zone);
  return !isPutOff || stood(standing, lot, place, care.atMs);
}

function onOf({ keeper }: Standing, { body: { on } }: Head<"care">): string {
  return dayNumber(on) === null ? localDate(heldMs(momentMs(on) ?? 0), keeper.zone) : on;
}

function stood(standing: Standing, name: string, place: string, atMs: number): boolean {
  const lot = standing.lots.get(name);
  return (
    lot !== undefined && staysOf(standing, lot).some((stay) => stay.place === place && covers(stay, atMs))
  );
}
