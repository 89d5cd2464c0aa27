// What comes when, shown before anything is saved.
import { setDates as words } from "../app/words/set.ts";
import type { Shells } from "../book/shells.ts";
import { standing } from "../state/standing.ts";
import type { Calendar } from "../trade/calendar.ts";
import { DARK_SHELL_DAY, type Species } from "../trade/species.ts";
import { CalendarWhy } from "./calendar-why.tsx";
import { dayWords } from "./told-time.ts";

/** First and last day of the usual hatch, in words. */
export function hatchTold({ hatchFrom, hatchTo }: Calendar): string {
  const { zone } = standing.value.keeper;
  return words.to(dayWords(hatchFrom.atMs, zone), dayWords(hatchTo.atMs, zone));
}

interface SetDatesProps {
  readonly species: Species;
  readonly calendar: Calendar;
  readonly underHen: boolean;
  readonly shells: Shells;
}

export function SetDates({ species, calendar, underHen, shells }: SetDatesProps) {
  const { zone } = standing.value.keeper;
  const day = (atMs: number) => dayWords(atMs, zone);
  const candle = underHen ? words.candleHen : words.candle;
  return (
    <section class="section">
      <h2>{words.title}</h2>
      <ul class="lines">
        {calendar.candle.map((stone) => (
          <li key={stone.day}>
            <span>{candle(stone.day)}</span>
            <span>{day(stone.atMs)}</span>
          </li>
        ))}
        {!underHen && (
          <li>
            <span>{words.lockdown(calendar.lockdown.day)}</span>
            <span>{day(calendar.lockdown.atMs)}</span>
          </li>
        )}
        <li>
          <b>{underHen ? words.hatchHen : words.hatch}</b>
          <b>{hatchTold(calendar)}</b>
        </li>
      </ul>
      {shells !== "plain" && <p class="quiet small">{words.shells[shells](DARK_SHELL_DAY)}</p>}
      {underHen && <p class="section-note">{words.hen}</p>}
      <CalendarWhy species={species} lockdownDay={calendar.lockdown.day} underHen={underHen} />
    </section>
  );
}
