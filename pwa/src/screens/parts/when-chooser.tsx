// "When: now", changed in one tap to earlier today, yesterday or a date.
import { useId, useState } from "preact/hooks";
import { localDate } from "../../trade/calendar.ts";
import { FIRST_DAY, type Moment, momentToDate, NOW, timeText } from "./moment.ts";
import { Press } from "./press.tsx";

export interface WhenWords {
  readonly when: string;
  readonly now: string;
  readonly earlier: string;
  readonly yesterday: string;
  readonly date: string;
  readonly day: string;
  readonly time: string;
  readonly ahead: string;
}

interface WhenChooserProps {
  readonly moment: Moment;
  readonly now: Date;
  readonly zone: string;
  readonly onChange: (moment: Moment) => void;
  readonly words: WhenWords;
}

const dayBefore = (day: string) =>
  new Date(Date.parse(`${day}T12:00:00Z`) - 86_400_000).toISOString().slice(0, 10);

type Way = "now" | "earlier" | "yesterday" | "date";

export function WhenChooser({ moment, now, zone, onChange, words }: WhenChooserProps) {
  const id = useId();
  const [way, setWay] = useState<Way>(moment.kind === "now" ? "now" : "date");
  const today = localDate(now.getTime(), zone);
  const choose = (next: Way) => {
    setWay(next);
    const hourAgo_ms = now.getTime() - 3_600_000;
    const time = localDate(hourAgo_ms, zone) === today ? timeText(hourAgo_ms, zone) : "00:00";
    if (next === "now") onChange(NOW);
    else if (next === "yesterday")
      onChange({ kind: "then", day: dayBefore(today), time: timeText(now.getTime(), zone) });
    else onChange({ kind: "then", day: today, time });
  };
  const options: readonly { value: Way; text: string }[] = [
    { value: "now", text: words.now },
    { value: "earlier", text: words.earlier },
    { value: "yesterday", text: words.yesterday },
    { value: "date", text: words.date },
  ];
  const ahead = momentToDate(moment, now, zone) === undefined;
  return (
    <div class="when">
      <span class="label" id={`${id}-label`}>
        <b>{words.when}</b>
      </span>
      <div class="choice" role="radiogroup" aria-labelledby={`${id}-label`}>
        {options.map((option) => (
          <Press
            key={option.value}
            role="radio"
            checked={option.value === way}
            onPress={() => choose(option.value)}
          >
            {option.text}
          </Press>
        ))}
      </div>
      {moment.kind === "then" && (
        <div class="pair">
          {way === "date" && (
            <div class="field">
              <label for={`${id}-day`}>{words.day}</label>
              <input
                id={`${id}-day`}
                type="date"
                min={FIRST_DAY}
                max={today}
                value={moment.day}
                onInput={(event) => onChange({ ...moment, day: event.currentTarget.value })}
              />
            </div>
          )}
          <div class="field">
            <label for={`${id}-time`}>{words.time}</label>
            <input
              id={`${id}-time`}
              type="time"
              value={moment.time}
              onInput={(event) => onChange({ ...moment, time: event.currentTarget.value })}
            />
          </div>
        </div>
      )}
      {ahead && (
        <p class="fault" role="alert">
          {words.ahead}
        </p>
      )}
    </div>
  );
}
