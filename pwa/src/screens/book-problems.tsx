// What does not add up, each with what settles it. A problem never blocks anything else.

import { book as words } from "../app/words/book.ts";
import type { Entry } from "../book/entries.ts";
import { happenedMs } from "../book/moments.ts";
import type { Problem } from "../book/problems.ts";
import { record, undo } from "../state/actions.ts";
import { amend } from "../state/holding.ts";
import { entries, standing } from "../state/standing.ts";
import { Press } from "./parts/press.tsx";
import { ProblemRow } from "./parts/problem-row.tsx";
import { answersIn } from "./told-entry.ts";
import { headingOf } from "./told-heading.ts";
import { clock, dayWords } from "./told-time.ts";

export function BookProblems({ problems }: { problems: readonly Problem[] }) {
  if (problems.length === 0) return null;
  const byId = new Map(entries.value.map((entry) => [entry.id, entry]));
  return (
    <section class="section" aria-label={words.problems}>
      <ul>
        {problems.map((problem) => (
          <ProblemRow
            key={`${problem.code} ${problem.entry} ${problem.message}`}
            message={problem.message}
            remedy={problem.remedy}
          >
            <Settling problem={problem} entry={byId.get(problem.entry ?? "")} />
          </ProblemRow>
        ))}
      </ul>
    </section>
  );
}

/** The entry a problem is about, and the acts that settle it in one tap. */
function Settling({ problem, entry }: { problem: Problem; entry: Entry | undefined }) {
  if (!entry) return null;
  const { zone } = standing.value.keeper;
  const at_ms = happenedMs(entry.at, entry.skew_ms);
  const heading = headingOf(entry, standing.value);
  const line =
    entry.kind === "moved" || entry.kind === "looked" ? `${heading}: ${answersIn(entry)}` : heading;
  const fewer = fewerCounted(problem, entry);
  return (
    <div>
      <p class="small">
        {line} <span class="quiet">{`${dayWords(at_ms, zone)}, ${clock(at_ms, zone)}`}</span>
      </p>
      <div class="acts">
        {fewer && (
          <Press kind="firm" onPress={fewer.settle}>
            {words.settle.missing(fewer.n)}
          </Press>
        )}
        {fewer && (
          <Press kind="plain" onPress={fewer.agree}>
            {words.settle.agree}
          </Press>
        )}
        <Press kind="plain" name={`${words.takeBack}: ${line}`} onPress={() => void undo(entry.id)}>
          {words.takeBack}
        </Press>
      </div>
    </div>
  );
}

/** A count by hand that found fewer than the book says: the missing can be written down, or the count was wrong. */
function fewerCounted(problem: Problem, entry: Entry) {
  const { lot, stage, n, ledger } = entry.body;
  if (problem.code !== "count_differs" || typeof lot !== "string" || typeof stage !== "string") return null;
  if (typeof n !== "number" || typeof ledger !== "number" || n >= ledger) return null;
  const root = standing.value.rootOf.get(entry.id) ?? entry.id;
  return {
    n: ledger - n,
    settle: () => {
      const moves = [{ lot, from: stage, to: "unaccounted", n: ledger - n }];
      void record("moved", { moves, why: "lost", settles: root });
    },
    agree: () => void amend(entry.id, "counted", { lot, stage, n: ledger, ledger }),
  };
}
