// What to do now and next; late things first. Each act opens with one tap.

import { choreWords } from "../app/words/chores.ts";
import { inDays, due as words } from "../app/words/due.ts";
import { due, type Task } from "../book/agenda.ts";
import { remindersFail } from "../state/connection.ts";
import { standing } from "../state/standing.ts";
import { ChoreDone } from "./chore-done.tsx";
import { DueRow, doingOf, type Group, inOneRow } from "./due-row.tsx";
import { KeptApart } from "./kept-apart.tsx";
import { placeName } from "./names.ts";
import { useNow } from "./now.ts";
import { Page } from "./page.tsx";
import { Notice } from "./parts/notice.tsx";
import { runningSettings } from "./setting-view.ts";
import { dayKey, daysBetween } from "./told-time.ts";

const GROUPS: readonly Group[] = ["late", "now", "week"];

export function DueScreen() {
  const now_ms = useNow();
  const totals = standing.value;
  const { zone } = totals.keeper;
  const tasks = due(totals, new Date(now_ms)).tasks;
  const running = runningSettings(totals, now_ms);
  const today = dayKey(now_ms, zone);
  const groupOf = (task: Task): Group => (task.overdue ? "late" : task.due <= today ? "now" : "week");
  const [first] = tasks;
  const lockdown = nextLockdown(running, now_ms, zone);
  return (
    <Page
      headline={headlineOf(first, first ? groupOf(first) : null, running.length, now_ms, zone)}
      under={lockdown}
    >
      {remindersFail.value && (
        <Notice tone="watch">
          <a class="press bare" href="/phone">
            {words.remindersFail}
          </a>
        </Notice>
      )}
      {running.length === 0 && (
        <>
          <p class="quiet section-note">{words.emptyRemedy}</p>
          <div class="acts">
            <a class="press main" href="/rooms/set">
              {words.set}
            </a>
          </div>
        </>
      )}
      <KeptApart today={today} />
      <ChoreDone now_ms={now_ms} />
      {GROUPS.map((group) => {
        const shown = tasks.filter((task) => groupOf(task) === group);
        if (shown.length === 0) return null;
        return (
          <section class="section" key={group}>
            <h2>{words.groups[group]}</h2>
            <ul class="rows">
              {inOneRow(shown).map(([task, ...beside]) => (
                <DueRow
                  key={`${task.task} ${task.place} ${task.setting} ${task.lot} ${task.plan} ${task.at}`}
                  task={task}
                  beside={beside}
                  group={group}
                  main={task === first}
                  now_ms={now_ms}
                />
              ))}
            </ul>
          </section>
        );
      })}
      {tasks.length > 0 && (
        <div class="acts">
          <a class="press plain" href="/phone/papers">
            {words.away}
          </a>
        </div>
      )}
    </Page>
  );
}

function headlineOf(
  first: Task | undefined,
  group: Group | null,
  running: number,
  now_ms: number,
  zone: string,
) {
  if (!first) return running === 0 ? words.title.empty : words.title.nothing;
  const doing = doingOf(first);
  const what = doing ? words.short[doing] : (choreWords(first.task)?.short ?? first.words);
  if (group === "late") return words.title.late(what);
  if (group === "now") return words.title.now(what);
  return words.title.next(what, inDays(daysBetween(now_ms, Date.parse(first.at), zone)));
}

function nextLockdown(
  running: ReturnType<typeof runningSettings>,
  now_ms: number,
  zone: string,
): string | null {
  const coming = running
    .filter(
      (view) =>
        !view.underHen &&
        view.setting.lockedAtMs === null &&
        (view.next === "candle" || view.next === "lockdown"),
    )
    .flatMap((view) => (view.calendar ? [{ view, at_ms: view.calendar.lockdown.atMs }] : []))
    .sort((a, b) => a.at_ms - b.at_ms)[0];
  if (!coming) return null;
  const days = daysBetween(now_ms, coming.at_ms, zone);
  return days < 0 ? null : words.countdown(days, placeName(standing.value, coming.view.setting.place));
}
