/**
 * What marked chicks ask for: webs looked at again after two weeks, rings looked at weekly until legs are grown.
 * Mirrors server/broodline/reports/agenda_marks.py over tests/vectors/agenda.json.
 */
import table from "@tables/agenda.json";
import { dayOf, later, localDate } from "../trade/calendar.ts";
import { caredOn } from "./cared.ts";
import type { Chore } from "./chores.ts";
import { byAscii } from "./code-points.ts";
import { living } from "./marks.ts";
import { type Mark, marksOfLots } from "./marks-of-lots.ts";
import { DAY_MS, dayNumber, heldMs } from "./moments.ts";
import { inStage, type Lot, type Standing } from "./standing.ts";
import { canBe, tiedTo } from "./tied.ts";

const { days } = table;
const LAST_DAY = dayNumber("9999-12-29") ?? 0;

/** All that marked chicks still ask for, however far ahead. */
export function markChores(standing: Standing): Chore[] {
  if (!standing.heads.marked?.length) return [];
  return [...marksOfLots(standing.heads)].flatMap(([name, marks]) => {
    const lot = standing.lots.get(name);
    if (lot === undefined || living(lot) <= 0 || (lot.setting === null && !lot.came)) return [];
    return [...websAgain(standing, lot, marks), ...rings(standing, lot, marks)];
  });
}

/**
 * The oldest marks that nobody looked at again; a look up to two days early counts. A look that names a pattern is one
 * at the chicks that bear it; one that names none is at all of the lot.
 */
function websAgain(standing: Standing, lot: Lot, marks: readonly Mark[]): Chore[] {
  const after = days.webs_again.value;
  const seen = marks
    .filter((mark) => mark.recheck)
    .map((mark) => ({ key: keyOf(mark), on: dayMarked(standing, mark) }));
  const early = after - days.done_early.value;
  const open = marks.filter((mark) => {
    if (mark.webs.length === 0 || mark.recheck) return false;
    const day = dayMarked(standing, mark);
    return !seen.some(({ key, on }) => (key === "" || key === keyOf(mark)) && on >= plus(day, early));
  });
  const [first] = open;
  if (first === undefined) return [];
  const n = open.reduce((sum, mark) => sum + (mark.n ?? living(lot)), 0);
  const day = dayMarked(standing, first);
  return [chore(standing, lot, "webs_again", first, { day, after, n: Math.min(n, living(lot)) })];
}

/** The pattern of a mark, in whatever order its webs were written; empty where it names none. */
function keyOf({ webs }: Mark): string {
  return [...new Set(webs)].sort(byAscii).join("+");
}

/** A week after the rings went on, were changed or were last looked at. */
function rings(standing: Standing, lot: Lot, marks: readonly Mark[]): Chore[] {
  const worn = marks.filter((mark) => mark.tag?.kind === "ring");
  const n = living(lot) - Math.max(0, inStage(lot, "flock"));
  const [first] = worn;
  if (first === undefined || n <= 0) return [];
  const day = dayMarked(standing, first);
  const place = placeOfChicks(standing, lot);
  const looked = caredOn(standing, "rings", place, [lot.id]).flatMap((told) => {
    const on = dayNumber(told);
    return on !== null && on >= day ? [on] : [];
  });
  const last = Math.max(...worn.map((mark) => dayMarked(standing, mark)), ...looked);
  const after = last - day + days.rings_every.value;
  return after <= days.rings_until.value ? [chore(standing, lot, "rings", first, { day, after, n })] : [];
}

function chore(
  standing: Standing,
  lot: Lot,
  task: "webs_again" | "rings",
  mark: Mark,
  { day, after, n }: { day: number; after: number; n: number },
): Chore {
  const written = dayNumber(localDate(heldMs(mark.atMs), zoneOf(standing))) ?? day;
  const atMs = later(heldMs(mark.atMs), (day - written + after) * DAY_MS);
  const begunMs = begun(standing, lot);
  const due = dateOf(plus(day, after));
  return {
    task,
    setting: lot.setting,
    lot: lot.id,
    lots: [lot.id],
    place: placeOfChicks(standing, lot),
    atMs,
    day: begunMs === null ? 0 : dayOf(begunMs, atMs),
    n: canBe(lot, tiedTo(standing, lot)) ? n : null,
    since: task === "rings" ? due : dateOf(plus(day, after - days.done_early.value)),
    due,
  };
}

/** So many days later, held within the calendar's years. */
function plus(day: number, span: number): number {
  return Math.min(day, LAST_DAY - span) + span;
}

function dateOf(day: number): string {
  return localDate(day * DAY_MS, "UTC");
}

/** The date the chicks were marked, in the holding's zone, as days since 1970. */
function dayMarked(standing: Standing, mark: Mark): number {
  return dayNumber(mark.on ?? localDate(heldMs(mark.atMs), zoneOf(standing))) ?? 0;
}

function zoneOf(standing: Standing): string {
  return standing.keeper.zone;
}

/** When the eggs were set, or the chicks came. */
function begun(standing: Standing, lot: Lot): number | null {
  const setting = lot.setting === null ? undefined : standing.settings.get(lot.setting);
  if (setting !== undefined) return heldMs(setting.setAtMs);
  const came = (standing.heads.came ?? []).find(({ body }) => body.lot === lot.id);
  const day = came === undefined ? null : dayNumber(came.body.on);
  return day === null ? null : day * DAY_MS;
}

/** Where chicks of the lot were last brought; until then, where they hatched. */
export function placeOfChicks(standing: Standing, lot: Lot): string {
  const brought = [...lot.moves]
    .reverse()
    .find(({ place, target }) => place !== null && ["brooding", "growing", "flock"].includes(target));
  if (brought?.place) return standing.rootOf.get(brought.place) ?? brought.place;
  const setting = lot.setting === null ? undefined : standing.settings.get(lot.setting);
  return setting?.lockedPlace ?? setting?.place ?? "";
}
