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

interface Told {
  readonly until: string;
  readonly on: string;
}

/** All that is kept apart, however long still; of several days written for the same ones the last. */
export function apartChores(standing: Standing, nowMs: number): Chore[] {
  const today = localDate(heldMs(nowMs), standing.keeper.zone);
  const lots = new Map<string, Told>();
  const alone = new Map<string, Told>();
  const take = (into: Map<string, Told>, id: string, told: Told) => {
    const known = into.get(id);
    const isLater = !known || told.until > known.until || (told.until === known.until && told.on > known.on);
    if (isLater) into.set(id, told);
  };
  for (const { body } of standing.heads.came ?? []) {
    const { apart_until: until, on, lot, bird } = body;
    if (!until || until < on) continue;
    if (typeof lot === "string") take(lots, lot, { until, on });
    if (typeof bird === "string") take(alone, birdId(standing, bird), { until, on });
  }
  const found = [...lots].flatMap(([id, told]) => {
    const lot = standing.lots.get(id);
    if (lot === undefined || living(lot) <= 0 || !isOpen(told.until, today)) return [];
    const n = canBe(lot, tiedTo(standing, lot)) ? living(lot) : null;
    return [chore(told, n, placeOfChicks(standing, lot), id)];
  });
  const birds = alone.size > 0 ? birdsOf(standing, today) : new Map();
  const byDay = new Map<string, Told[]>();
  for (const [bird, told] of alone) {
    if (birds.get(bird)?.where === "here" && isOpen(told.until, today))
      byDay.set(told.until, [...(byDay.get(told.until) ?? []), told]);
  }
  for (const [until, together] of byDay) {
    const [on = until] = together.map((told) => told.on).sort();
    found.push(chore({ until, on }, together.length, "", null));
  }
  return found;
}

const noon = (day: string) => noonMs(day) ?? 0;

const isOpen = (until: string, today: string) =>
  noon(today) <= noon(until) + table.ages.apart_open.value * DAY_MS;

function chore({ until, on }: Told, n: number | null, place: string, lot: string | null): Chore {
  const atMs = heldMs(noon(until));
  const day = wholeDays(noon(on), atMs);
  return { task: "apart", setting: null, lot, place, atMs, day, n, since: until, due: until };
}
