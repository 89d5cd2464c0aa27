/**
 * What one setting still asks for, from the first candling to the last egg opened. Mirrors
 * server/broodline/reports/agenda.py. The real act makes a task done.
 */
import table from "@tables/agenda.json";
import type broodTable from "@tables/brood_tasks.json";
import { type Calendar, dayOf, later, localDate, milestone } from "../trade/calendar.ts";
import { DARK_SHELL_DAY, speciesNamed } from "../trade/species.ts";
import { DAY_MS, HOUR_MS, heldMs } from "./moments.ts";
import { outOfShell } from "./out-of-shell.ts";
import { type Shells, settingCalendar, shellsOf } from "./shells.ts";
import { inStage, type Lot, type Move, type Setting, type Standing, seenByDay } from "./standing.ts";

/** What there is to do, from the shell to the brooder. */
export type Doing = keyof typeof table.tasks | keyof typeof broodTable.tasks;

/**
 * One thing to do. atMs: from when. day: of incubation. n: eggs or chicks. since: a care on that date or later makes
 * it done. due: the date it is due, in the holding's zone; watching the hatch is due every day anew.
 */
export interface Chore {
  readonly task: Doing;
  /** Null for chicks that came as a lot. */
  readonly setting: string | null;
  /** Where it is about the chicks of one. */
  readonly lot: string | null;
  readonly place: string;
  readonly atMs: number;
  readonly day: number;
  /** Null where nobody can say. */
  readonly n: number | null;
  readonly since: string;
  readonly due: string;
  /** All whose chicks it is about, also where it is a chore of their place. */
  readonly lots?: readonly string[];
  /** What can be seen through them on a first candling. */
  readonly shells?: Shells;
  /** For the task "set": the note that holds the plan, and the species. Such a task has place "" where none is decided. */
  readonly plan?: string;
  readonly species?: string;
  /** In words, for the task "heat" the band to turn to or the days on which heat ends, for "grit" its size. */
  readonly figure?: string;
  /** Which of the task's words, where not the usual ones: heat by the chicks alone, or that it may come off. */
  readonly says?: "words_chicks" | "words_off";
}

/** What the chores of one setting are worked out from. */
interface Course {
  readonly setting: Setting;
  readonly lots: readonly Lot[];
  readonly calendar: Calendar;
  readonly hatches: readonly Move[];
  readonly zone: string;
  readonly nowMs: number;
  readonly underHen: boolean;
  readonly shells: Shells;
}

const { hours, days } = table;
const EARLY_MS = -days.done_early.value * DAY_MS;
const SEEN_AT_CANDLING = ["clear", "blood_ring", "quitter"];

/** All that one setting still asks for, however far ahead; nothing for a species the tables do not know. */
export function choresOf(standing: Standing, setting: Setting, nowMs: number): Chore[] {
  const species = speciesNamed(setting.species);
  if (species === undefined) return [];
  const lots = setting.lots.flatMap((name) => standing.lots.get(name) ?? []);
  const course: Course = {
    setting,
    lots,
    calendar: settingCalendar(standing, setting, species),
    hatches: hatchesOf(setting, lots),
    zone: standing.keeper.zone,
    nowMs,
    underHen: standing.places.get(setting.place)?.role === "hen",
    shells: shellsOf(standing, setting),
  };
  return [candling, locking, hatching, pulling, opening].flatMap((chores) => chores(course));
}

/** Each candling until the next one may begin, or until lockdown; eggs seen by then are left out. */
function candling({ setting, lots, calendar, zone, nowMs, shells }: Course): Chore[] {
  if (setting.lockedAtMs !== null) return [];
  return calendar.candle.flatMap(({ day, atMs }, i) => {
    const next = calendar.candle[i + 1];
    const endMs = next === undefined ? calendar.lockdown.atMs : later(next.atMs, EARLY_MS);
    const sinceMs = later(atMs, EARLY_MS);
    const n = inHand(setting, lots, Math.trunc(day), sinceMs);
    if (n === 0 || nowMs >= endMs) return [];
    const since = localDate(sinceMs, zone);
    const told = chore("candle", setting, setting.place, { atMs, day, n, since, due: localDate(atMs, zone) });
    return [day <= DARK_SHELL_DAY ? { ...told, shells } : told];
  });
}

/**
 * Eggs of a setting nobody has held to the light for this candling. An egg that left the setter without its family
 * being known stands in no lot: it is taken off one it may be of.
 */
function inHand(setting: Setting, lots: readonly Lot[], day: number, sinceMs: number): number {
  const left = new Map(lots.map((lot) => [lot.id, unseen(lot, day, sinceMs)]));
  for (const move of setting.among) {
    let gone = move.source === "set" && move.target !== "set" ? move.n : 0;
    for (const name of move.among) {
      const waiting = left.get(name) ?? 0;
      const taken = Math.min(gone, waiting);
      left.set(name, waiting - taken);
      gone -= taken;
    }
  }
  return [...left.values()].reduce((sum, n) => sum + n, 0);
}

/**
 * Eggs in the setter beyond those seen live or not sure on the day of this candling on which most were. Without a look
 * none is left where something was taken out as candling does: the rest was seen and put back.
 */
function unseen(lot: Lot, day: number, sinceMs: number): number {
  const early = day - days.done_early.value;
  const seen = [...seenByDay(lot, "candled")].filter(([on]) => on >= early);
  if (seen.length === 0 && isTakenOut(lot, sinceMs)) return 0;
  const most = Math.max(0, ...seen.map(([, { live, unsure }]) => live + unsure));
  return Math.max(0, inStage(lot, "set") - most);
}

function isTakenOut(lot: Lot, sinceMs: number): boolean {
  return lot.moves.some(
    ({ source, target, atMs }) =>
      source === "set" && SEEN_AT_CANDLING.includes(target) && heldMs(atMs) >= sinceMs,
  );
}

/** Lockdown, until it is written down: eggs carried over already are still turned. A hen does the turning. */
function locking({ setting, calendar, zone, underHen }: Course): Chore[] {
  const n = resting(setting);
  if (n <= 0 || setting.lockedAtMs !== null || underHen) return [];
  const { day, atMs } = calendar.lockdown;
  const since = localDate(later(atMs, EARLY_MS), zone);
  return [chore("lockdown", setting, setting.place, { atMs, day, n, since, due: localDate(atMs, zone) })];
}

/** Every day from the window's first until opening; a look at the hatch on that date makes it done. */
function hatching(course: Course): Chore[] {
  const { setting, lots, calendar, hatches, zone, nowMs } = course;
  const n = resting(setting);
  if (n <= 0 || nowMs >= openingAtMs(course)) return [];
  const { day, atMs } = calendar.hatchFrom;
  const due = localDate(Math.max(atMs, nowMs), zone);
  const looks = lots.flatMap((lot) => lot.looks.filter((look) => look.what === "hatch"));
  const isWatched = [...looks, ...hatches].some((seen) => localDate(heldMs(seen.atMs), zone) >= due);
  return isWatched ? [] : [chore("hatch", setting, hatcher(setting), { atMs, day, n, since: due, due })];
}

/** Chicks still where they hatched are the last that came out; the first of those says when. */
function pulling({ setting, hatches, zone }: Course): Chore[] {
  const n = inStage(setting, "hatched");
  const oldest = oldestOfLast(hatches, n);
  if (n <= 0 || oldest === undefined) return [];
  const outMs = heldMs(oldest.atMs);
  const atMs = later(outMs, hours.pull_after_hatch.value * HOUR_MS);
  const day = dayOf(heldMs(setting.setAtMs), atMs);
  const dates = { since: localDate(outMs, zone), due: localDate(atMs, zone) };
  return [chore("pull", setting, hatcher(setting), { atMs, day, n, ...dates })];
}

/** The earliest of the last moves that brought n chicks out: of the chicks still where they hatched, the oldest. */
export function oldestOfLast(hatches: readonly Move[], n: number): Move | undefined {
  let counted = 0;
  for (const move of [...hatches].reverse()) {
    counted += move.n;
    if (counted >= n) return move;
  }
  return hatches[0];
}

function opening(course: Course): Chore[] {
  const { setting, calendar, zone, nowMs } = course;
  const n = resting(setting) + Math.max(0, inStage(setting, "unhatched"));
  if (n <= 0 || nowMs < calendar.lockdown.atMs) return [];
  const atMs = openingAtMs(course);
  const due = localDate(atMs, zone);
  const day = dayOf(heldMs(setting.setAtMs), atMs);
  return [chore("open", setting, hatcher(setting), { atMs, day, n, since: due, due })];
}

/** Not before the last day of the window is over, nor 24 h after the last chick; a day more where none came. */
function openingAtMs({ calendar, hatches }: Course): number {
  const overMs = milestone(calendar.hatchTo.atMs, 1).atMs;
  const last = hatches.at(-1);
  return last === undefined
    ? later(overMs, hours.open_after_window_without_chick.value * HOUR_MS)
    : Math.max(overMs, later(heldMs(last.atMs), hours.open_after_last_chick.value * HOUR_MS));
}

/** Every move of eggs into hatched, in order of time. */
export function hatchesOf(setting: Setting, lots: readonly Lot[]): readonly Move[] {
  const moves = [...setting.among, ...lots.flatMap((lot) => lot.moves)];
  return outOfShell(moves);
}

function resting(setting: Setting): number {
  return Math.max(0, inStage(setting, "set")) + Math.max(0, inStage(setting, "locked"));
}

function hatcher(setting: Setting): string {
  return setting.lockedPlace ?? setting.place;
}

function chore(
  task: Doing,
  setting: Setting,
  place: string,
  when: Pick<Chore, "atMs" | "day" | "n" | "since" | "due">,
): Chore {
  return { task, setting: setting.id, lot: null, place, ...when, day: Math.trunc(when.day) };
}
