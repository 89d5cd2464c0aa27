/**
 * When the chicks of a lot came out: the look by which half of them were. Mirrors server/broodline/book/hatch_day.py.
 * Chicks that came as a lot hatched at noon (UTC) of the day that was written with them.
 */
import { DAY_MS, dayNumber, HOUR_MS, MINUTE_MS } from "./moments.ts";
import { comesOut } from "./stages.ts";
import type { Lot, Setting, Standing } from "./standing.ts";

const LOOK_MS = 30 * MINUTE_MS;

/** Milliseconds since 1970 of the look by which half of a lot's chicks were out; null where nobody wrote it. */
export function hatchedMs(standing: Standing, lot: Lot): number | null {
  if (lot.came) return writtenMs(standing, lot);
  const setting = lot.setting === null ? undefined : standing.settings.get(lot.setting);
  const out = lot.moves.filter(comesOut).sort((a, b) => a.atMs - b.atMs || a.n - b.n);
  if (setting === undefined || out.length === 0) return null;
  const ends = lookEnds(seenAt(standing, setting));
  const total = out.reduce((sum, { n }) => sum + n, 0);
  let counted = 0;
  for (const { atMs, n } of out) {
    counted += n;
    if (2 * counted >= total) return ends.find((end) => end >= atMs) ?? null;
  }
  return null;
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

function writtenMs(standing: Standing, lot: Lot): number | null {
  const came = (standing.heads.came ?? []).find(
    ({ body }) => body.lot === lot.id && body.n !== undefined && body.n !== null,
  );
  return came?.body.hatched_on ? noonMs(came.body.hatched_on) : null;
}

/** All that was seen at the hatch of a setting, in order of time. */
function seenAt(standing: Standing, setting: Setting): number[] {
  const lots = setting.lots.flatMap((name) => standing.lots.get(name) ?? []);
  const moves = [...setting.among, ...lots.flatMap((lot) => lot.moves)].filter(comesOut);
  const looks = lots.flatMap((lot) => lot.looks.filter((look) => look.what === "hatch"));
  return [...moves, ...looks].map(({ atMs }) => atMs).sort((a, b) => a - b);
}

/** When each look ended: it takes in all within 30 minutes of its beginning. */
function lookEnds(events: readonly number[]): number[] {
  const ends: number[] = [];
  let beganMs = Number.NEGATIVE_INFINITY;
  for (const atMs of events) {
    if (atMs <= beganMs + LOOK_MS) ends[ends.length - 1] = atMs;
    else {
      beganMs = atMs;
      ends.push(atMs);
    }
  }
  return ends;
}
