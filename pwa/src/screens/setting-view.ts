// One setting as the screens show it: its batches, its day, what is next. Pure; today is an argument.

import { inDays } from "../app/words/due.ts";
import { setting as words } from "../app/words/rooms.ts";
import type { Lot, Setting, Standing } from "../book/standing.ts";
import { type Calendar, incubationCalendar } from "../trade/calendar.ts";
import { speciesNamed } from "../trade/species.ts";
import { inHand, PILES, type TallyBatch, type TallyWhat } from "./tally-plan.ts";
import { daysBetween } from "./told-time.ts";

const DAY_MS = 86_400_000;

export interface SettingView {
  readonly setting: Setting;
  readonly batches: readonly Lot[];
  readonly eggsSet: number;
  /** In set or locked. */
  readonly inShell: number;
  readonly hatched: number;
  readonly toOpen: number;
  readonly day: number;
  /** With the part of a day, for the pin. */
  readonly dayNow: number;
  readonly calendar: Calendar | null;
  /** The tally to offer first; null when nothing is left to do. */
  readonly next: TallyWhat | null;
}

const held = (stages: ReadonlyMap<string, number>, names: readonly string[]) =>
  names.reduce((sum, name) => sum + Math.max(0, stages.get(name) ?? 0), 0);

const OUT_OF_SHELL = ["hatched", "brooding", "growing", "flock", "died", "culled", "parted"];

export function settingView(standing: Standing, setting: Setting, now_ms: number): SettingView {
  const batches = setting.lots.map((id) => standing.lots.get(id)).filter((lot) => lot !== undefined);
  const species = speciesNamed(setting.species);
  const calendar = species ? incubationCalendar(species, setting.setAtMs, setting.lockdownDay) : null;
  const dayNow = (now_ms - setting.setAtMs) / DAY_MS;
  const day = Math.floor(dayNow);
  const inShell = held(setting.stages, ["set", "locked"]);
  const toOpen = held(setting.stages, PILES);
  return {
    setting,
    batches,
    eggsSet: batches.reduce((sum, lot) => sum + lot.n, 0),
    inShell,
    hatched: held(setting.stages, OUT_OF_SHELL),
    toOpen,
    day,
    dayNow,
    calendar,
    next: nextTally(setting, calendar, day, toOpen),
  };
}

function nextTally(
  setting: Setting,
  calendar: Calendar | null,
  day: number,
  toOpen: number,
): TallyWhat | null {
  const waiting = held(setting.stages, ["set"]);
  const locked = held(setting.stages, ["locked"]);
  if (waiting + locked === 0) return toOpen > 0 ? "open" : null;
  if (locked > 0 || (calendar && day >= calendar.hatchFrom.day)) return "hatch";
  return calendar && day >= calendar.lockdown.day ? "lockdown" : "candle";
}

/** Settings with eggs in the shell, the oldest first. */
export function runningSettings(standing: Standing, now_ms: number): SettingView[] {
  return [...standing.settings.values()]
    .map((setting) => settingView(standing, setting, now_ms))
    .filter((view) => view.inShell > 0)
    .sort((a, b) => a.setting.setAtMs - b.setting.setAtMs);
}

/** A batch for the counting screen, with what was seen on `day`. */
export function tallyBatch(lot: Lot, what: TallyWhat, day: number): TallyBatch {
  const looks = lot.looks.filter(
    (look) => look.day === day && look.what === (what === "hatch" ? "hatch" : "candled"),
  );
  const sum = (of: "live" | "unsure" | "pipped") => looks.reduce((total, look) => total + look[of], 0);
  const marked = (mark: "weak" | "helped") =>
    lot.moves.filter((move) => move[mark]).reduce((total, move) => total + move.n, 0);
  return {
    lot: lot.id,
    n: lot.n,
    stages: Object.fromEntries(lot.stages),
    live: sum("live"),
    unsure: sum("unsure"),
    pipped: sum("pipped"),
    weak: marked("weak"),
    helped: marked("helped"),
  };
}

/** All batches of a setting as one, for eggs whose family is not known. */
export function amongBatch(view: SettingView, what: TallyWhat, day: number): TallyBatch {
  const parts = view.batches.map((lot) => tallyBatch(lot, what, day));
  const sum = (of: "live" | "unsure" | "pipped" | "weak" | "helped" | "n") =>
    parts.reduce((total, part) => total + part[of], 0);
  return {
    lot: null,
    n: sum("n"),
    stages: Object.fromEntries(view.setting.stages),
    live: sum("live"),
    unsure: sum("unsure"),
    pipped: sum("pipped"),
    weak: sum("weak"),
    helped: sum("helped"),
  };
}

/** Eggs of the whole setting that wait for an answer; those moved with no family known are taken off. */
export function leftInSetting(view: SettingView, what: TallyWhat, day: number): number {
  return inHand(what, amongBatch(view, what, day));
}

/** What the setting is at, as a finding: the name of the next thing and when, or how it went. */
export function settingHeadline(view: SettingView, now_ms: number, zone: string): string {
  const { calendar, next, day, hatched, eggsSet } = view;
  if (next === null) return words.headline.done(hatched, eggsSet);
  if (next === "open") return words.headline.over(hatched, eggsSet);
  if (!calendar) return words.headline.day(day);
  const when = (at_ms: number) => inDays(daysBetween(now_ms, at_ms, zone));
  if (next === "hatch") {
    if (hatched > 0) return words.headline.hatching(hatched, view.inShell);
    return day >= calendar.hatchFrom.day
      ? words.headline.chicksDue
      : words.headline.wait(words.next.hatch, when(calendar.hatchFrom.atMs));
  }
  if (next === "lockdown") return words.headline.lockdown;
  const coming = calendar.candle.find((milestone) => milestone.day >= day);
  if (!coming) return words.headline.wait(words.next.lockdown, when(calendar.lockdown.atMs));
  return coming.day === day
    ? words.headline.candle(day)
    : words.headline.wait(words.next.candle, when(coming.atMs));
}
