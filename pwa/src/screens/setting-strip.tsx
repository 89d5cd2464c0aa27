// The incubation strip of one setting, in words and drawn.
import { strip as words } from "../app/words/rooms.ts";
import { IncubationStrip } from "./parts/incubation-strip.tsx";
import type { SettingView } from "./setting-view.ts";

/** Nothing where the days of the species are not known. */
export function SettingStrip({ view: { calendar, day, dayNow, underHen } }: { view: SettingView }) {
  if (!calendar) return null;
  const candleDays = calendar.candle.map((milestone) => milestone.day);
  const lockdownDay = underHen ? null : calendar.lockdown.day;
  const [from, to] = [calendar.hatchFrom.day, calendar.hatchTo.day];
  return (
    <IncubationStrip
      day={dayNow}
      candleDays={candleDays}
      lockdownDay={lockdownDay}
      windowFrom={from}
      windowTo={to + 1}
      name={words.name(day, candleDays.join(", "), lockdownDay, from, to)}
      words={{ ...words, today: words.today(day) }}
    />
  );
}
