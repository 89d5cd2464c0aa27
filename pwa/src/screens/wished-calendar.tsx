// The settings of a plan against the days, under those that run already: one bar each, open while the eggs are turned,
// filled from lockdown on.
import { wished as words } from "../app/words/wished.ts";
import { standing } from "../state/standing.ts";
import type { EggsSetting } from "../state/wished-report.ts";
import { shifted } from "../trade/backwards.ts";
import { localDate } from "../trade/calendar.ts";
import { placeName } from "./names.ts";
import { useNow } from "./now.ts";
import { placeLabels } from "./parts/strip-labels.ts";
import { useDrawnWidth } from "./parts/width.ts";
import { runningSettings, whereIs } from "./setting-view.ts";
import { daysFrom, dayTold, weekdayTold } from "./told-day.ts";

const WEEK = 7;

/** Days as YYYY-MM-DD. */
interface Bar {
  readonly key: string;
  readonly from: string;
  readonly lockdown: string;
  readonly to: string;
  readonly told: string;
}

function planned(setting: EggsSetting): Bar {
  const eggs = setting.lots.reduce((sum, lot) => sum + lot.n, 0);
  const place = setting.place ? placeName(standing.value, setting.place) : words.anyPlace;
  return {
    key: `${setting.setOn} ${setting.place} ${setting.species}`,
    from: setting.setOn,
    lockdown: setting.lockdownOn,
    to: setting.hatchOn,
    told: `${eggs}, ${place}`,
  };
}

/** What is in the machines today, from today on. */
function running(now_ms: number): Bar[] {
  const { zone } = standing.value.keeper;
  const today = localDate(now_ms, zone);
  const since = (at_ms: number) => [localDate(at_ms, zone), today].sort().at(-1) ?? today;
  return runningSettings(standing.value, now_ms).flatMap(({ calendar, inShell, setting }) =>
    calendar
      ? [
          {
            key: setting.id,
            from: today,
            lockdown: since(calendar.lockdown.atMs),
            to: since(calendar.hatchTo.atMs),
            told: words.running(inShell, placeName(standing.value, whereIs(setting))),
          },
        ]
      : [],
  );
}

export function WishedCalendar({ settings }: { settings: readonly EggsSetting[] }) {
  const { ref, width, text } = useDrawnWidth<HTMLElement>();
  const bars = [...running(useNow()), ...settings.map(planned)];
  const [first = ""] = bars.map((bar) => bar.from).sort();
  const last =
    bars
      .map((bar) => bar.to)
      .sort()
      .at(-1) ?? first;
  const days = Math.max(1, daysFrom(first, last));
  const right = width - 8;
  const at = (day: string) => 4 + (daysFrom(first, day) / days) * (right - 4);
  const row = text * 2.5;
  const top = text * 2;
  const foot = top + bars.length * row;
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
        {bars.map((bar, n) => {
          const y = top + n * row;
          const from = at(bar.from);
          const locks = at(bar.lockdown);
          const fits = from + bar.told.length * char < width;
          return (
            <g key={bar.key}>
              {locks > from && (
                <rect class="turned" x={from} y={y + text * 1.2} width={locks - from} height={text * 0.7} />
              )}
              <rect
                class="locked"
                x={locks}
                y={y + text * 1.2}
                width={Math.max(2, at(bar.to) - locks)}
                height={text * 0.7}
              />
              <text x={fits ? from : right} y={y + text} text-anchor={fits ? "start" : "end"}>
                {bar.told}
              </text>
            </g>
          );
        })}
      </svg>
      <figcaption class="quiet small">{words.calendarNote}</figcaption>
    </figure>
  );
}
