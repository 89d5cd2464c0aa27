// One thing to do: when, what and why, and the tap that opens it or says it is done.
import { chores, choreWords } from "../app/words/chores.ts";
import { inDays, due as words } from "../app/words/due.ts";
import { everywhere, listed } from "../app/words/everywhere.ts";
import { inRegion, regionOf } from "../app/words/region.ts";
import type { Task } from "../book/agenda.ts";
import { openPlans, type Planned } from "../book/chores-plans.ts";
import { choreDone } from "../state/chores.ts";
import { standing } from "../state/standing.ts";
import { inASentence, speciesNamed } from "../trade/species.ts";
import { ChoreLater } from "./chore-later.tsx";
import { familyName, placeName } from "./names.ts";
import { Press } from "./parts/press.tsx";
import { dayKey, daysBetween, dayWords } from "./told-time.ts";

export type Group = "late" | "now" | "week";
type Doing = keyof typeof words.act;

/** Of a setting or of marks: those have a page of their own. Null for what a brood asks for. */
export const doingOf = (task: Task): Doing | null =>
  Object.hasOwn(words.act, task.task) ? (task.task as Doing) : null;

/** Rings are looked at by place: one look is for all batches there that are due on that day. */
export function inOneRow(tasks: readonly Task[]): (readonly [Task, ...Task[]])[] {
  const rows = new Map<string, [Task, ...Task[]]>();
  tasks.forEach((task, at) => {
    const key = task.task === "rings" ? `${task.place} ${task.due}` : String(at);
    const row = rows.get(key);
    if (row) row.push(task);
    else rows.set(key, [task]);
  });
  return [...rows.values()];
}

interface DueRowProps {
  readonly task: Task;
  /** The same of other batches, done by the same act. */
  readonly beside: readonly Task[];
  readonly group: Group;
  /** The one thing to do first. */
  readonly main: boolean;
  readonly now_ms: number;
}

export function DueRow({ task, beside, group, main, now_ms }: DueRowProps) {
  const { zone, region } = standing.value.keeper;
  const doing = doingOf(task);
  const chore = choreWords(task.task);
  const place = task.place ? placeName(standing.value, task.place) : "";
  const plan = task.plan ? openPlans(standing.value).find(({ id }) => id === task.plan) : undefined;
  const away = daysBetween(now_ms, Date.parse(task.at), zone);
  const when =
    group === "late"
      ? words.since(dayWords(Date.parse(task.at), zone))
      : group === "now"
        ? words.today
        : away <= 1
          ? inDays(away)
          : dayWords(Date.parse(task.at), zone);
  const lots = [task, ...beside].flatMap((one) => standing.value.lots.get(one.lot ?? "") ?? []);
  const whose = listed(lots.map((lot) => familyName(standing.value, lot.family)));
  const said = (text: string) => inRegion(text, regionOf(region));
  const plainly = doing ? words.tasks[doing](place) : task.words;
  const what = plan ? words.setOf(eggsOf(plan), place) : chore ? said(chores.at(chore.what, place)) : plainly;
  return (
    <li class={`due-row ${group}`}>
      <span class="when">{when}</span>
      <details class="body">
        <summary>
          <span>
            <span class="what">{what}</span>
            <span class="quiet small">
              {[plan ? words.planned : words.day(task.day), whose].filter(Boolean).join(", ")}{" "}
              <span class="why">{everywhere.why}</span>
            </span>
          </span>
        </summary>
        <p>{said(task.words)}</p>
        <p class="quiet">{said(task.why)}</p>
        <p class="quiet">{words.source(task.source)}</p>
        {plan && (
          <p>
            <a class="press bare" href="/rooms/plan">
              {words.plans}
            </a>
          </p>
        )}
        {chore && task.place && <ChoreLater task={task} now_ms={now_ms} />}
      </details>
      <Act task={task} place={place} kind={main && group !== "week" ? "main" : "plain"} now_ms={now_ms} />
    </li>
  );
}

interface ActProps {
  readonly task: Task;
  readonly place: string;
  readonly kind: "main" | "plain";
  readonly now_ms: number;
}

/** What has a page of its own is opened; what a brood asks for is done with one tap once it is due. */
function Act({ task, place, kind, now_ms }: ActProps) {
  const doing = doingOf(task);
  const chore = choreWords(task.task);
  const today = dayKey(now_ms, standing.value.keeper.zone);
  if (doing || task.task === "weigh") {
    return (
      <a class={`press ${kind} link`} href={wayOf(doing, task)}>
        {doing ? words.act[doing] : chores.weigh}
        {place && <span class="heard">{`, ${place}`}</span>}
      </a>
    );
  }
  if (!chore || task.due > today) return null;
  return (
    <Press kind={kind} class="link" onPress={() => void choreDone(task.task, task.place, today)}>
      {chores.done}
      <span class="heard">{`: ${chores.at(chore.what, place)}`}</span>
    </Press>
  );
}

const eggsOf = ({ species }: Planned) => inASentence(speciesNamed(species)?.name ?? species);

/** Chicks are brought out from the page of their setting; marks and birds have their own; all else is a tally. */
function wayOf(doing: Doing | null, { setting, lot, place, plan }: Task): string {
  if (doing === null) return `/birds/weigh?who=${lot === null ? `place:${place}` : `lot:${lot}`}`;
  if (doing === "set") return `/rooms/set?plan=${plan}${place ? `&place=${place}` : ""}`;
  if (doing === "air") return `/rooms/${place}/air`;
  if (doing === "webs_again" || doing === "rings") return `/again/${lot}`;
  return doing === "pull" ? `/setting/${setting}` : `/setting/${setting}/tally/${doing}`;
}
