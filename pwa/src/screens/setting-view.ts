// One setting as the screens show it: its batches, its day, what is next. Pure; today is an argument.

import { settingCalendar } from "../book/shells.ts";
import { NOT_WRITTEN } from "../book/stages.ts";
import type { Lot, Setting, Standing } from "../book/standing.ts";
import type { Calendar } from "../trade/calendar.ts";
import { speciesNamed } from "../trade/species.ts";
import { PILES, type TallyWhat } from "./tally-plan.ts";
import { dayNowOf, held, type TallyView, tallyView } from "./tally-view.ts";

export interface SettingView extends TallyView {
  readonly eggsSet: number;
  readonly hatched: number;
  readonly toOpen: number;
  /** With the part of a day, for the pin. */
  readonly dayNow: number;
  readonly calendar: Calendar | null;
  /** She turns and airs them herself, and there is no lockdown. */
  readonly underHen: boolean;
  /** The tally to offer first; null when nothing is left to do. */
  readonly next: TallyWhat | null;
}

const OUT_OF_SHELL = ["hatched", "brooding", "growing", "flock", "died", "culled", "parted"];

export function settingView(standing: Standing, setting: Setting, now_ms: number): SettingView {
  const view = tallyView(standing, setting, now_ms);
  const species = speciesNamed(setting.species);
  const calendar = species ? settingCalendar(standing, setting, species) : null;
  const toOpen = held(setting.stages, PILES);
  const hatched = held(setting.stages, OUT_OF_SHELL);
  const underHen = standing.places.get(setting.place)?.role === "hen";
  return {
    ...view,
    eggsSet: view.batches.reduce((sum, lot) => sum + lot.n, 0),
    hatched,
    toOpen,
    dayNow: dayNowOf(setting, now_ms),
    calendar,
    underHen,
    next: nextTally(setting, calendar, view.day, { toOpen, hatched, underHen }),
  };
}

function nextTally(
  setting: Setting,
  calendar: Calendar | null,
  day: number,
  { toOpen, hatched, underHen }: Pick<SettingView, "toOpen" | "hatched" | "underHen">,
): TallyWhat | null {
  const waiting = held(setting.stages, ["set"]);
  const locked = held(setting.stages, ["locked"]);
  if (waiting + locked === 0) return toOpen > 0 ? "open" : null;
  if (setting.lockedAtMs !== null) return "hatch";
  // A transfer that was broken off stays the next thing until it is written down, or chicks are there to be looked at.
  if (locked > 0) return underHen || hatched > 0 ? "hatch" : "lockdown";
  if (calendar && day >= calendar.hatchFrom.day) return "hatch";
  if (!calendar || day < calendar.lockdown.day) return "candle";
  return underHen ? "hatch" : "lockdown";
}

/** Settings with eggs in the shell, the oldest first. */
export function runningSettings(standing: Standing, now_ms: number): SettingView[] {
  return [...standing.settings.values()]
    .map((setting) => settingView(standing, setting, now_ms))
    .filter((view) => view.inShell > 0)
    .sort((a, b) => a.setting.setAtMs - b.setting.setAtMs);
}

/** Running settings whose eggs lie in this machine now: in the hatcher from lockdown on. */
export function viewsIn(standing: Standing, place: string, now_ms: number): SettingView[] {
  return runningSettings(standing, now_ms).filter(({ setting }) => whereIs(setting) === place);
}

/** Where the eggs of a setting lie now. */
export const whereIs = (setting: Setting): string =>
  setting.lockedAtMs === null ? setting.place : (setting.lockedPlace ?? setting.place);

/** How many chicks of a batch left the counts because nobody wrote what became of them. */
export const notWritten = ({ moves }: Lot): number =>
  moves.reduce(
    (sum, { target, cause, n }) => sum + (target === "parted" && cause === NOT_WRITTEN ? n : 0),
    0,
  );
