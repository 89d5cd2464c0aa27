// What a setting is at, in one line. Pure; today is an argument.
import { inDays } from "../app/words/due.ts";
import { setting as words } from "../app/words/rooms.ts";
import type { SettingView } from "./setting-view.ts";
import { daysBetween } from "./told-time.ts";

/** The finding: the name of the next thing and when, or how it went. */
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
  if (!coming && view.underHen) return words.headline.wait(words.next.hatch, when(calendar.hatchFrom.atMs));
  if (!coming) return words.headline.wait(words.next.lockdown, when(calendar.lockdown.atMs));
  return coming.day === day
    ? words.headline.candle(day)
    : words.headline.wait(words.next.candle, when(coming.atMs));
}
