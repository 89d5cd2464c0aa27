// The settings of a plan against the days: one bar each, open while the eggs are turned, filled from lockdown on.
import { wished as words } from "../app/words/wished.ts";
import { standing } from "../state/standing.ts";
import type { EggsSetting } from "../state/wished-report.ts";
import { shifted } from "../trade/backwards.ts";
import { placeName } from "./names.ts";
import { placeLabels } from "./parts/strip-labels.ts";
import { useDrawnWidth } from "./parts/width.ts";
import { daysFrom, dayTold, weekdayTold } from "./told-day.ts";

const WEEK = 7;

export function WishedCalendar({ settings }: { settings: readonly EggsSetting[] }) {
  const { ref, width, text } = useDrawnWidth<HTMLElement>();
  const first = settings.map((one) => one.setOn).sort()[0] ?? "";
  const last =
    settings
      .map((one) => one.hatchOn)
      .sort()
      .at(-1) ?? first;
  const days = Math.max(1, daysFrom(first, last));
  const right = width - 8;
  const at = (day: string) => 4 + (daysFrom(first, day) / days) * (right - 4);
  const row = text * 2.5;
  const top = text * 2;
  const foot = top + settings.length * row;
  const weeks = Array.from(
    { length: Math.floor(days / WEEK) + 1 },
    (_, n) => shifted(first, n * WEEK) ?? first,
  );
  const char = text * 0.56;
  const labels = weeks.map((day, i) => ({ text: dayTold(day), x: at(day), rank: i % 4 === 0 ? 0 : 1 + i }));
  const name = words.calendar(settings.length, weekdayTold(first), weekdayTold(last));
  return (
    <figure class="plan-calendar" ref={ref}>
      <svg width={width} height={foot + 4} role="img" aria-label={name}>
        {weeks.map((day) => (
          <path key={day} class="week" d={`M${at(day)} ${top - 4}V${foot}`} />
        ))}
        {placeLabels(labels, width, char).map((label) => (
          <text key={label.x} x={label.left + label.width / 2} y={text} text-anchor="middle">
            {label.text}
          </text>
        ))}
        {settings.map((setting, n) => {
          const y = top + n * row;
          const eggs = setting.lots.reduce((sum, lot) => sum + lot.n, 0);
          const place = setting.place ? placeName(standing.value, setting.place) : words.anyPlace;
          const told = `${eggs}, ${place}`;
          const from = at(setting.setOn);
          const fits = from + told.length * char < width;
          return (
            <g key={`${setting.setOn} ${setting.place} ${setting.species}`}>
              <rect
                class="turned"
                x={from}
                y={y + text * 1.2}
                width={at(setting.lockdownOn) - from}
                height={text * 0.7}
              />
              <rect
                class="locked"
                x={at(setting.lockdownOn)}
                y={y + text * 1.2}
                width={Math.max(2, at(setting.hatchOn) - at(setting.lockdownOn))}
                height={text * 0.7}
              />
              <text x={fits ? from : right} y={y + text} text-anchor={fits ? "start" : "end"}>
                {told}
              </text>
            </g>
          );
        })}
      </svg>
      <figcaption class="quiet small">{words.calendarNote}</figcaption>
    </figure>
  );
}
