// A page that the server works out: its last answer with its date, or what to do to get one.
import type { ComponentChildren } from "preact";
import { answers as words } from "../app/words/answers.ts";
import type { Told } from "../state/answer-fields.ts";
import type { LastAnswer } from "../state/last-answer.ts";
import { standing } from "../state/standing.ts";
import { Page } from "./page.tsx";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { clock, dayWords } from "./told-time.ts";

interface ToldAnswerProps<R> {
  readonly answer: LastAnswer<R>;
  /** What is asked for, where there is no answer to take a headline from. */
  readonly title: string;
  readonly again: () => void;
  readonly children: (report: R, when: string) => ComponentChildren;
}

export function ToldAnswer<R extends { readonly computedMs: number }>(props: ToldAnswerProps<R>) {
  const { answer, title, again, children } = props;
  const report = answer.kind === "unpaired" ? null : answer.report;
  if (report) {
    const { zone } = standing.value.keeper;
    return children(report, `${dayWords(report.computedMs, zone)}, ${clock(report.computedMs, zone)}`);
  }
  if (answer.kind === "asking") return <Page headline={title} under={words.waiting} wide />;
  return (
    <Page headline={title} under={answer.kind === "unpaired" ? words.unpaired : words.away} wide>
      <div class="acts">
        {answer.kind === "unpaired" ? (
          <a class="press main" href="/pair">
            {words.pair}
          </a>
        ) : (
          <Press kind="main" onPress={again}>
            {words.again}
          </Press>
        )}
      </div>
    </Page>
  );
}

/** Says that an answer is an old one. */
export function Stale({ answer, when }: { answer: LastAnswer<unknown>; when: string }) {
  return answer.kind === "away" ? <Notice tone="watch">{words.stale(when)}</Notice> : null;
}

export function AnswerProblems({ problems }: { problems: readonly Told[] }) {
  if (problems.length === 0) return null;
  return (
    <section class="section">
      <h2>{words.problems}</h2>
      <ul class="rows">
        {problems.map((problem) => (
          <li key={problem.message}>
            <b>{problem.message}</b> <span class="quiet">{problem.remedy}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}

export function PrintPress() {
  return (
    <Press kind="plain" class="no-print" onPress={() => window.print()}>
      {words.print}
    </Press>
  );
}
