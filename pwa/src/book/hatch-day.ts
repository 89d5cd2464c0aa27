/**
 * When the chicks of a lot came out: the look by which half of them were. Mirrors server/broodline/book/hatch_day.py
 * over tests/vectors/whereabouts.json. Where no chick is known to be of a lot, those count that may be. Chicks that came as a lot hatched at noon (UTC) of the day that was written with them.
 */
import { localDate } from "../trade/calendar.ts";
import { DAY_MS, dayNumber, HOUR_MS, heldMs, MINUTE_MS } from "./moments.ts";
import { outOfShell } from "./out-of-shell.ts";
import type { Lot, Move, Setting, Standing } from "./standing.ts";

const LOOK_MS = 30 * MINUTE_MS;

/**
 * Milliseconds since 1970 of the look by which half of a lot's chicks were out, or of those that may be of any of
 * `among`; null where nobody wrote it.
 */
export function hatchedMs(standing: Standing, lot: Lot, among: readonly string[] = []): number | null {
  if (lot.came) return noonMs(writtenOn(standing, lot) ?? "");
  const setting = lot.setting === null ? undefined : standing.settings.get(lot.setting);
  if (setting === undefined) return null;
  const own = outOfShell(lot.moves);
  const may = (names: readonly string[]) =>
    among.length > 0 ? names.every((name) => among.includes(name)) : names.includes(lot.id);
  const shared = outOfShell(setting.among.filter((move) => may(move.among)));
  const [first, second] = among.length > 0 ? [shared, own] : [own, shared];
  return halfMs(standing, setting, first.length > 0 ? first : second);
}

function halfMs(standing: Standing, setting: Setting, out: readonly Move[]): number | null {
  const ends = lookEnds([...out.map(({ atMs }) => atMs), ...seenAt(standing, setting)]);
  const total = out.reduce((sum, { n }) => sum + n, 0);
  let counted = 0;
  for (const { atMs, n } of out) {
    counted += n;
    if (2 * counted >= total) return ends.find((end) => end >= atMs) ?? null;
  }
  return null;
}

/** The day on which half of a lot's chicks were out, in the holding's zone; of chicks that came, as it was written. */
export function hatchedOn(standing: Standing, lot: Lot): string | null {
  if (lot.came) return writtenOn(standing, lot);
  const bornMs = hatchedMs(standing, lot);
  return bornMs === null ? null : localDate(heldMs(bornMs), standing.keeper.zone);
}

/** Whole days since a moment; below zero before it. */
export function wholeDays(sinceMs: number, nowMs: number): number {
  return Math.floor((nowMs - sinceMs) / DAY_MS);
}

/** Noon, UTC, of a calendar day; null for what is none. */
export function noonMs(day: string): number | null {
  const number = dayNumber(day);
  return number === null ? null : number * DAY_MS + 12 * HOUR_MS;
}

function writtenOn(standing: Standing, lot: Lot): string | null {
  const came = (standing.heads.came ?? []).find(
    ({ body }) => body.lot === lot.id && body.n !== undefined && body.n !== null,
  );
  return came?.body.hatched_on ?? null;
}

/** All that was seen at the hatch of a setting. */
function seenAt(standing: Standing, setting: Setting): number[] {
  const lots = setting.lots.flatMap((name) => standing.lots.get(name) ?? []);
  const moves = [setting.among, ...lots.map((lot) => lot.moves)].flatMap(outOfShell);
  const looks = lots.flatMap((lot) => lot.looks.filter((look) => look.what === "hatch"));
  return [...moves, ...looks].map(({ atMs }) => atMs);
}

/** When each look ended: it takes in all within 30 minutes of its beginning. */
function lookEnds(events: readonly number[]): number[] {
  const ends: number[] = [];
  let beganMs = Number.NEGATIVE_INFINITY;
  for (const atMs of [...events].sort((a, b) => a - b)) {
    if (atMs <= beganMs + LOOK_MS) ends[ends.length - 1] = atMs;
    else {
      beganMs = atMs;
      ends.push(atMs);
    }
  }
  return ends;
}
