/**
 * What is due, in words, overdue first. Mirrors server/broodline/reports/agenda.py over tests/vectors/agenda.json.
 * A `care` for a task at its place makes it done, as the real act does. A task is shown a week ahead.
 */
import table from "@tables/agenda.json";
import broodTable from "@tables/brood_tasks.json";
import { instantText, later, localDate } from "../trade/calendar.ts";
import { sourceTitle } from "../trade/sources.ts";
import { DARK_SHELL_DAY } from "../trade/species.ts";
import { broodChores } from "./brood-chores.ts";
import { isCared } from "./cared.ts";
import { type Chore, choresOf, type Doing } from "./chores.ts";
import { airChores } from "./chores-air.ts";
import { apartChores } from "./chores-apart.ts";
import { markChores } from "./chores-marks.ts";
import { planChores, plannedWords } from "./chores-plans.ts";
import { byAscii, byCodePoint } from "./code-points.ts";
import { DAY_MS } from "./moments.ts";
import { inOwnWords, ownWords } from "./own-words.ts";
import type { Shells } from "./shells.ts";
import type { Standing } from "./standing.ts";

/** One thing to do, as the server says it too. at: from when, UTC. due: the date, in the holding's zone. */
export interface Task {
  readonly due: string;
  readonly at: string;
  readonly place: string;
  readonly setting: string | null;
  readonly lot: string | null;
  readonly plan: string | null;
  readonly task: Doing;
  readonly day: number;
  readonly n: number | null;
  readonly words: string;
  readonly why: string;
  readonly source: string;
  readonly overdue: boolean;
}

interface Grounds {
  readonly why: string;
  readonly source: string;
}
interface Words extends Grounds {
  readonly words: string;
  readonly words_hen?: string;
  readonly words_chicks?: string;
  readonly words_off?: string;
  readonly words_anywhere?: string;
  readonly shells?: Readonly<Partial<Record<Shells, Grounds>>>;
}

const TASKS = new Map<string, Words>(Object.entries({ ...broodTable.tasks, ...table.tasks }));

/** What is due at `now` and within a week, overdue first; dates in the holding's zone. */
export function due(standing: Standing, now: Date): { readonly on: string; readonly tasks: readonly Task[] } {
  const { zone } = standing.keeper;
  const nowMs = now.getTime();
  const today = localDate(nowMs, zone);
  const last = localDate(later(nowMs, table.days.shown_ahead.value * DAY_MS), zone);
  const ofSettings = [...standing.settings.values()].flatMap((setting) => choresOf(standing, setting, nowMs));
  const tasks = [
    ...ofSettings,
    ...markChores(standing),
    ...broodChores(standing, nowMs),
    ...apartChores(standing, nowMs),
    ...planChores(standing),
  ]
    .filter((chore) => !isCared(standing, chore))
    .concat(airChores(standing, nowMs))
    .filter((chore) => chore.due <= last)
    .sort((a, b) => inTurn(a, b, today))
    .map((chore) => told(standing, chore, today));
  return { on: today, tasks };
}

function inTurn(a: Chore, b: Chore, today: string): number {
  return (
    Number(a.due >= today) - Number(b.due >= today) ||
    a.atMs - b.atMs ||
    byCodePoint(a.place, b.place) ||
    byAscii(a.setting ?? "", b.setting ?? "") ||
    byAscii(a.task, b.task) ||
    byAscii(a.lot ?? "", b.lot ?? "") ||
    byAscii(a.plan ?? "", b.plan ?? "")
  );
}

function told(standing: Standing, chore: Chore, today: string): Task {
  const words = TASKS.get(chore.task);
  if (words === undefined) throw new RangeError(`no words for ${chore.task}`);
  const grounds = (chore.shells && words.shells?.[chore.shells]) ?? words;
  const place = standing.places.get(chore.place);
  const usual = place?.role === "hen" ? (words.words_hen ?? words.words) : words.words;
  const plain = plannedWords(chore, chore.place === "" ? (words.words_anywhere ?? usual) : usual, standing);
  const said = oneOrMany((chore.says && words[chore.says]) ?? plain, chore.n).replaceAll(
    "{figure}",
    chore.figure ?? "",
  );
  const name = place?.name ?? "an unknown place";
  const own = ownWords(standing.keeper.words);
  return {
    due: chore.due,
    at: instantText(chore.atMs),
    place: chore.place,
    setting: chore.setting,
    lot: chore.lot,
    plan: chore.plan ?? null,
    task: chore.task,
    day: chore.day,
    n: chore.n,
    words: inOwnWords(chore.n === null ? uncounted(said) : said, own)
      .replaceAll("{n}", String(chore.n))
      .replaceAll("{place}", () => name),
    why: inOwnWords(grounds.why, own).replaceAll("{dark_day}", String(DARK_SHELL_DAY)),
    source: sourceTitle(grounds.source) ?? grounds.source,
    overdue: chore.due < today,
  };
}

/** Of two words with a bar between them the first for one, the second for any other number. */
const oneOrMany = (said: string, n: number | null) => said.replace(/(\w+)\|(\w+)/g, n === 1 ? "$1" : "$2");

/** Words for so many as words for however many. */
const uncounted = (said: string): string =>
  said.replace(/\. \{n\} chicks\.$/, ".").replace(/(the )?\{n\} /gi, (_, the?: string) => the ?? "the ");
