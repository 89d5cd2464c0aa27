/**
 * Birds and chicks that came and are kept apart: on the day that was written with them they may join, if all are well.
 * Mirrors server/broodline/reports/agenda_apart.py over tests/vectors/agenda.json.
 */
import table from "@tables/brood_tasks.json";
import { localDate } from "../trade/calendar.ts";
import { birdId, birdsOf } from "./birds.ts";
import type { Chore } from "./chores.ts";
import { placeOfChicks } from "./chores-marks.ts";
import { noonMs, wholeDays } from "./hatch-day.ts";
import { living } from "./marks.ts";
import { DAY_MS, heldMs } from "./moments.ts";
import type { Standing } from "./standing.ts";
import { canBe, tiedTo } from "./tied.ts";

/** Until when batches and birds that came are kept apart, and since when; of several days written the last. */
export function apart(standing: Standing): ReadonlyMap<string, readonly [until: string, on: string]> {
  const last = new Map<string, readonly [until: string, on: string]>();
  for (const { body } of standing.heads.came ?? []) {
    const { apart_until: until, on } = body;
    const id = body.lot ?? (body.bird ? birdId(standing, body.bird) : "");
    if (until && until >= on && until > (last.get(id)?.[0] ?? "")) last.set(id, [until, on]);
  }
  return last;
}

/** All that is kept apart, however long still. */
export function apartChores(standing: Standing, nowMs: number): Chore[] {
  const today = localDate(heldMs(nowMs), standing.keeper.zone);
  const last = apart(standing);
  if (last.size === 0) return [];
  const birds = birdsOf(standing, today);
  const found: Chore[] = [];
  for (const [id, [until, on]] of last) {
    const lot = standing.lots.get(id);
    const alive = lot ? living(lot) : Number(birds.get(id)?.where === "here");
    const atMs = heldMs(noon(until));
    if (alive <= 0 || noon(today) > noon(until) + table.ages.apart_open.value * DAY_MS) continue;
    const beside = lot ? -1 : found.findIndex((one) => one.lot === null && one.due === until);
    const n = found[beside]?.n ?? 0;
    const chore: Chore = {
      task: "apart",
      setting: null,
      lot: lot ? id : null,
      place: lot ? placeOfChicks(standing, lot) : "",
      atMs,
      day: wholeDays(noon(on), atMs),
      n: lot && !canBe(lot, tiedTo(standing, lot)) ? null : alive + n,
      since: until,
      due: until,
    };
    if (beside < 0) found.push(chore);
    else found[beside] = chore;
  }
  return found;
}

const noon = (day: string) => noonMs(day) ?? 0;
