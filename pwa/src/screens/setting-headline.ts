// What a setting is at, in one line. Pure; today is an argument.
import { due, inDays } from "../app/words/due.ts";
import { setting as words } from "../app/words/rooms.ts";
import type { Task } from "../book/agenda.ts";
import type { SettingView } from "./setting-view.ts";
import { daysBetween } from "./told-time.ts";

/** The finding: the name of the next thing and when, or how it went. tasks: what is due of this setting. */
export function settingHeadline(
  view: SettingView,
  tasks: readonly Task[],
  now_ms: number,
  zone: string,
): string {
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
  const isLate = tasks.some((task) => task.task === next && task.overdue);
  if (isLate) return due.title.late(due.short[next]);
  if (next === "lockdown") return words.headline.lockdown;
  const isCandled = !tasks.some(
    (task) => task.task === "candle" && daysBetween(now_ms, Date.parse(task.at), zone) <= 0,
  );
  const coming = calendar.candle.find((milestone) => milestone.day >= day + Number(isCandled));
  if (!coming && view.underHen) return words.headline.wait(words.next.hatch, when(calendar.hatchFrom.atMs));
  if (!coming) return words.headline.wait(words.next.lockdown, when(calendar.lockdown.atMs));
  return coming.day === day
    ? words.headline.candle(day)
    : words.headline.wait(words.next.candle, when(coming.atMs));
}
