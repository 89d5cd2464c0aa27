// Everything that was written, in order. Nothing is deleted: an entry is taken back, brought back, or its count changed.
import { useMemo, useState } from "preact/hooks";
import { book as words } from "../app/words/book.ts";
import { allProblems } from "../book/flock-checks.ts";
import { desk } from "../state/desk.ts";
import { held } from "../state/held.ts";
import { entries, standing } from "../state/standing.ts";
import { BookLine } from "./book-line.tsx";
import { BookProblems } from "./book-problems.tsx";
import { useNow } from "./now.ts";
import { Page } from "./page.tsx";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { SelectField } from "./parts/select-field.tsx";
import { SaveCopy } from "./save-copy.tsx";
import { type StoryLine, storyLines, type Told, tellEntries } from "./story.ts";
import { daysBetween, dayWords } from "./told-time.ts";

const FILTERS = ["all", "eggs", "names", "others", "back"] as const;
type Filter = (typeof FILTERS)[number];

const NAMES = new Set(["keeper", "place", "family", "bird"]);
const AT_ONCE = 60;

export function BookScreen() {
  const now_ms = useNow();
  const [filter, setFilter] = useState<Filter>("all");
  const [most, setMost] = useState(AT_ONCE);
  const totals = standing.value;
  const card = desk.value?.card;
  const all = entries.value;
  const own = useMemo(() => new Set(card ? [card.device, ...card.earlier_devices] : []), [card]);
  const lines = useMemo(
    () => storyLines(tellEntries(all, totals.rootOf).filter(passes(filter, own)), totals),
    [all, totals, filter, own],
  );
  const shown = lines.slice(0, most);
  const problems = useMemo(() => allProblems(totals), [totals]);
  const n = held.value.n;
  const headline =
    problems.length > 0
      ? words.title.problems(problems.length)
      : n === 0
        ? words.title.empty
        : words.title.clean(n);
  return (
    <Page headline={headline} under={n === 0 ? words.emptyRemedy : null}>
      {totals.newer > 0 && <Notice tone="watch">{words.newer(totals.newer)}</Notice>}
      <BookProblems problems={problems} />
      {n > 0 && (
        <SelectField
          label={words.filter}
          value={filter}
          options={FILTERS.map((value) => ({ value, text: words.filters[value] }))}
          onChoose={(value) => setFilter(FILTERS.find((one) => one === value) ?? "all")}
        />
      )}
      {lines.length === 0 && n > 0 && <p class="section quiet">{words.nothing}</p>}
      <Days lines={shown} now_ms={now_ms} own={own} />
      {lines.length > most && (
        <div class="acts">
          <Press kind="plain" onPress={() => setMost(most + AT_ONCE)}>
            {words.more}
          </Press>
        </div>
      )}
      {n > 0 && <SaveCopy hint={words.copyHint} />}
      <div class="acts">
        <a class="press plain" href="/help">
          {words.help}
        </a>
      </div>
    </Page>
  );
}

function passes(filter: Filter, own: ReadonlySet<string>): (told: Told) => boolean {
  return ({ entry, back }) => {
    if (filter === "back") return back;
    if (filter === "others") return !own.has(entry.device);
    if (filter === "names") return NAMES.has(entry.kind);
    return filter === "all" || !NAMES.has(entry.kind);
  };
}

interface DaysProps {
  readonly lines: readonly StoryLine[];
  readonly now_ms: number;
  readonly own: ReadonlySet<string>;
}

/** The lines under a heading for each day. */
function Days({ lines, now_ms, own }: DaysProps) {
  const { zone } = standing.value.keeper;
  const days: { away: number; lines: StoryLine[] }[] = [];
  for (const line of lines) {
    const away = daysBetween(line.at_ms, now_ms, zone);
    const last = days.at(-1);
    if (last?.away === away) last.lines.push(line);
    else days.push({ away, lines: [line] });
  }
  return (
    <>
      {days.map((day) => (
        <section key={day.away}>
          <h2 class="day-head">
            {day.away === 0
              ? words.today
              : day.away === 1
                ? words.yesterday
                : dayWords(day.lines[0]?.at_ms ?? 0, zone)}
          </h2>
          <ul class="rows">
            {day.lines.map((line) => (
              <BookLine key={line.told[0]?.root} line={line} own={own} />
            ))}
          </ul>
        </section>
      ))}
    </>
  );
}
