// Why a setting's days are what they are: the species' figures and where each was read.
import { calendarWhy as words } from "../app/words/calendar-why.ts";
import { sourceTitle } from "../trade/sources.ts";
import { figuresOf, type Species } from "../trade/species.ts";
import { Why } from "./parts/why.tsx";

interface CalendarWhyProps {
  readonly species: Species;
  /** Of the setting, which may have a day of its own. */
  readonly lockdownDay: number;
  readonly underHen: boolean;
}

export function CalendarWhy({ species, lockdownDay, underHen }: CalendarWhyProps) {
  const { period, lockdown, candle } = figuresOf(species);
  const [low, high] = period.value;
  const inputs = [
    { name: words.period, value: low === high ? String(low) : words.span(low, high) },
    ...(underHen ? [] : [{ name: words.lockdown, value: String(lockdown.value) }]),
    ...(lockdownDay === lockdown.value || underHen ? [] : [{ name: words.own, value: String(lockdownDay) }]),
    { name: words.candle, value: candle.value.join(", ") },
  ];
  const read = new Map([period, ...(underHen ? [] : [lockdown]), candle].map((one) => [one.source, one]));
  return (
    <Why
      about={words.about}
      formula={words.formula}
      inputs={inputs}
      sources={[...read.values()].map(({ source, status }) => ({
        title: sourceTitle(source) ?? source,
        status,
      }))}
    />
  );
}
