// Where on the line of days a finding of the server belongs: the days in which it came about. Pure.
import { capital } from "../app/words/capital.ts";
import type { Read, SettingReport } from "../state/setting-report.ts";
import { deathDays } from "../trade/breakout.ts";
import type { SettingView } from "./setting-view.ts";
import type { TimeLine } from "./time-line-view.ts";

export interface PlacedFinding {
  readonly fromDay: number;
  readonly toDay: number;
  readonly words: string;
  readonly causes: readonly Read[];
}

const DAY_MS = 86_400_000;
const HOUR_MS = 3_600_000;

/** In order of the days. tellSpell: a spell of the air in words. */
export function placedFindings(
  report: SettingReport,
  view: SettingView,
  line: TimeLine,
  tellSpell: (spell: SettingReport["spells"][number]) => string,
): PlacedFinding[] {
  const { setting, calendar } = view;
  const hatch: readonly [number, number] = [
    line.hatched[0]?.x ?? calendar?.hatchFrom.day ?? line.endDay,
    line.hatched.at(-1)?.x ?? calendar?.hatchTo.day ?? line.endDay,
  ];
  const locked =
    setting.lockedAtMs === null ? calendar?.lockdown.day : (setting.lockedAtMs - setting.setAtMs) / DAY_MS;
  const [early, middle] = deathDays(setting.species);
  const SPANS: Readonly<Record<string, readonly [number, number]>> = {
    no_development: [0, 1],
    dead_early: [0, early],
    dead_mid: [early, middle],
    dead_after_transfer: [locked ?? middle, hatch[1]],
  };
  const placed = [
    ...report.losses.map((one) => {
      // What hangs on no days of its own, as a pairing that loses eggs, spans them all.
      const [fromDay, toDay] = SPANS[one.code] ?? [0, hatch[1]];
      return { fromDay, toDay, words: `${capital(one.finding)}. ${one.words}`, causes: one.causes };
    }),
    ...report.hatch.map((one) => ({
      fromDay: hatch[0],
      toDay: hatch[1],
      words: one.words,
      causes: one.causes,
    })),
    ...report.spells.map((spell) => {
      const fromDay = (spell.fromMs - setting.setAtMs) / DAY_MS;
      const toDay = fromDay + ((spell.hours ?? 0) * HOUR_MS) / DAY_MS;
      return { fromDay, toDay, words: `${tellSpell(spell)}.`, causes: [] };
    }),
  ];
  return placed.sort((a, b) => a.fromDay - b.fromDay || a.toDay - b.toDay);
}
