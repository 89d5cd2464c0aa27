// How findings of a setting's report are told, on the page of what it may mean and on the line of days.
import { capital } from "../app/words/capital.ts";
import { meaning as words } from "../app/words/meaning.ts";
import type { SettingReport, Spell } from "../state/setting-report.ts";
import { standing } from "../state/standing.ts";
import { temperatureText, temperatureUnit } from "./measures.ts";
import { clock, dayWords } from "./told-time.ts";

/** The finding in one line: the first that stands out in the losses, else in the hatch; null where nothing does. */
export function findingOf({ losses, hatch }: SettingReport): string | null {
  const first = losses[0]?.finding || hatch[0]?.words.split(". ")[0]?.replace(/\.$/, "");
  return first ? capital(first) : null;
}

/** A spell outside the band, or without power, in words. */
export function spellWords({ way, fromMs, hours, worstC }: Spell): string {
  const when = momentWords(fromMs);
  if (hours === null) return words.spell.on(when);
  const worst = worstC === null ? null : temperatureText(worstC, temperatureUnit(standing.value));
  return words.spell[way](when, words.hours(hours), worst);
}

/** "Sun 8 March, 19:40" in the holding's zone. */
export function momentWords(atMs: number): string {
  const { zone } = standing.value.keeper;
  return `${dayWords(atMs, zone)}, ${clock(atMs, zone)}`;
}
