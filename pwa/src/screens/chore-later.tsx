// A task of a brood put off: for a week, until a day, or not asked for these birds at all.
import { useState } from "preact/hooks";
import { chores as words } from "../app/words/chores.ts";
import type { Task } from "../book/agenda.ts";
import { putOff } from "../state/chores.ts";
import { standing } from "../state/standing.ts";
import { useDay } from "./own-day.ts";
import { DayField } from "./parts/day-field.tsx";
import { Press } from "./parts/press.tsx";
import { isDay } from "./told-day.ts";
import { dayKey } from "./told-time.ts";

const DAY_MS = 86_400_000;
/** By then these birds are grown, or stand in the flock. */
const GROWN_DAYS = 182;

export function ChoreLater({ task, now_ms }: { task: Task; now_ms: number }) {
  const { zone } = standing.value.keeper;
  const inDays = (days: number) => dayKey(now_ms + days * DAY_MS, zone);
  const [day, setDay] = useDay(inDays(7));
  const [wrong, setWrong] = useState(false);
  const until = (last: string) => void putOff(task.task, task.place, last);
  return (
    <details>
      <summary>{words.later}</summary>
      <div class="acts">
        <Press kind="plain" onPress={() => until(inDays(6))}>
          {words.week}
        </Press>
        <Press kind="plain" onPress={() => until(inDays(GROWN_DAYS))}>
          {words.never}
        </Press>
      </div>
      <DayField label={words.until} value={day} onType={setDay} fault={wrong ? words.untilFault : null} />
      <div class="acts">
        <Press
          kind="plain"
          onPress={() => {
            const isAhead = isDay(day) && day > inDays(0);
            setWrong(!isAhead);
            if (isAhead) until(dayKey(Date.parse(`${day}T12:00:00Z`) - DAY_MS, "UTC"));
          }}
        >
          {words.untilSave}
        </Press>
      </div>
    </details>
  );
}
