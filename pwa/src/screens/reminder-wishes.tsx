// What this phone is reminded of, and at what hour.
import { useId } from "preact/hooks";
import { reminders as words } from "../app/words/reminders.ts";
import type { Wishes } from "../state/reminders.ts";
import { Press } from "./parts/press.tsx";
import { Section } from "./section.tsx";

interface Props {
  readonly wishes: Wishes;
  readonly onChange: (wishes: Wishes) => void;
}

const USUAL_QUIET = { from: "21:00", until: "06:00" } as const;

export function ReminderWishes({ wishes, onChange }: Props) {
  const { what, quiet } = wishes;
  const turn = (task: string) =>
    onChange({ ...wishes, what: what.includes(task) ? what.filter((one) => one !== task) : [...what, task] });
  return (
    <Section title={words.what}>
      {Object.entries(words.tasks).map(([task, text]) => (
        <Switch key={task} text={text} on={what.includes(task)} onTurn={() => turn(task)} />
      ))}
      <details>
        <summary>{words.brood}</summary>
        {Object.entries(words.broodTasks).map(([task, text]) => (
          <Switch key={task} text={text} on={what.includes(task)} onTurn={() => turn(task)} />
        ))}
      </details>
      <TimeField label={words.at} value={wishes.at} onTell={(at) => onChange({ ...wishes, at })} />
      {what.includes("lockdown") && (
        <TimeField
          label={words.evening}
          value={wishes.evening}
          onTell={(evening) => onChange({ ...wishes, evening })}
        />
      )}
      <Switch
        text={words.quiet}
        on={quiet !== null}
        onTurn={() => onChange({ ...wishes, quiet: quiet ? null : USUAL_QUIET })}
      />
      {quiet && (
        <>
          <TimeField
            label={words.from}
            value={quiet.from}
            onTell={(from) => onChange({ ...wishes, quiet: { ...quiet, from } })}
          />
          <TimeField
            label={words.until}
            value={quiet.until}
            onTell={(until) => onChange({ ...wishes, quiet: { ...quiet, until } })}
          />
          <p class="quiet small">{words.quietNote}</p>
        </>
      )}
      <p class="quiet small">{words.zone}</p>
    </Section>
  );
}

function Switch({ text, on, onTurn }: { text: string; on: boolean; onTurn: () => void }) {
  return (
    <div class="check">
      <Press role="switch" checked={on} name={text} onPress={onTurn}>
        {on ? words.yes : words.no}
      </Press>
      <span aria-hidden="true">{text}</span>
    </div>
  );
}

function TimeField(props: { label: string; value: string; onTell: (time: string) => void }) {
  const id = useId();
  return (
    <div class="field">
      <label for={id}>{props.label}</label>
      <input
        id={id}
        type="time"
        value={props.value}
        onChange={(event) => {
          const { value } = event.currentTarget;
          if (/^\d\d:\d\d$/.test(value)) props.onTell(value);
        }}
      />
    </div>
  );
}
