// The season on one page, for the desk and for paper: what may be said, family by family, and where the eggs went.
import { useEffect, useState } from "preact/hooks";
import { papers } from "../app/words/papers.ts";
import { season as words } from "../app/words/season.ts";
import { askSeason, season } from "../state/reports.ts";
import type { SeasonReport } from "../state/season-report.ts";
import { standing } from "../state/standing.ts";
import { useNow } from "./now.ts";
import { Page } from "./page.tsx";
import { PaperLinks } from "./paper-links.tsx";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { SeasonChicks } from "./season-chicks.tsx";
import { SeasonCompared } from "./season-compared.tsx";
import { SeasonEarlier } from "./season-earlier.tsx";
import { SeasonFamilies } from "./season-families.tsx";
import { SeasonFunnel } from "./season-funnel.tsx";
import { SeasonGroups } from "./season-groups.tsx";
import { SeasonHatches } from "./season-hatches.tsx";
import { SeasonLosses } from "./season-losses.tsx";
import { seasonOf } from "./told-season.ts";
import { clock, dayKey, dayWords } from "./told-time.ts";

export function SeasonScreen() {
  const now_ms = useNow();
  const { zone, season_starts } = standing.value.keeper;
  const [date] = useState(() => dayKey(now_ms, zone));
  const current = seasonOf(date, season_starts);
  const [year, setYear] = useState(current);
  useEffect(() => void askSeason(year), [year]);
  const answer = season.value;
  const report = answer.kind === "unpaired" ? null : answer.report;
  const pages = (
    <div class="acts no-print">
      <Press kind="plain" name={words.earlier(year - 1)} onPress={() => setYear(year - 1)}>
        {year - 1}
      </Press>
      {year < current && (
        <Press kind="plain" name={words.later(year + 1)} onPress={() => setYear(year + 1)}>
          {year + 1}
        </Press>
      )}
      {report && (
        <Press kind="plain" onPress={() => window.print()}>
          {words.print}
        </Press>
      )}
    </div>
  );
  if (!report || report.year !== year) {
    const waiting = answer.kind === "asking";
    return (
      <Page headline={waiting ? words.waiting : words.none.title} over={words.of(year)} beside={pages} wide>
        {!waiting && (
          <>
            <p class="section-note">{answer.kind === "unpaired" ? words.none.unpaired : words.none.away}</p>
            <div class="acts">
              {answer.kind === "unpaired" ? (
                <a class="press main" href="/pair">
                  {words.none.go}
                </a>
              ) : (
                <Press kind="main" onPress={() => void askSeason(year)}>
                  {words.none.again}
                </Press>
              )}
            </div>
          </>
        )}
      </Page>
    );
  }
  const headline = headlineOf(report);
  const at_ms = Date.parse(report.computed_at) || now_ms;
  const when = `${dayWords(at_ms, zone)}, ${clock(at_ms, zone)}`;
  return (
    <Page
      headline={headline}
      over={words.over(year, when)}
      under={restOf(report.verdict, headline)}
      beside={pages}
      wide
    >
      {answer.kind === "away" && <Notice tone="watch">{words.stale(when)}</Notice>}
      {report.settings > 0 && (
        <>
          <SeasonFamilies report={report} />
          <div class="beside">
            <SeasonFunnel report={report} />
            <SeasonHatches report={report} />
          </div>
          <SeasonCompared report={report} />
          <div class="beside">
            <SeasonLosses report={report} />
            <SeasonChicks report={report} />
          </div>
          <SeasonGroups report={report} />
          <SeasonEarlier report={report} />
          {report.storage && <p class="section-note">{report.storage}</p>}
          <SeasonProblems report={report} />
          <PaperLinks
            of={papers.season(year)}
            links={[
              { path: `papers/season/${year}.pdf`, what: papers.report },
              { path: `papers/marks/${year}.pdf`, what: papers.marks },
              { path: `exports/season.xlsx?year=${year}`, what: papers.sheet },
            ]}
          />
        </>
      )}
    </Page>
  );
}

const APART_BELOW = 0.05;

/** The finding in one line. Two families are named only where the season's eggs separate just these two. */
export function headlineOf(report: SeasonReport): string {
  if (report.settings === 0) return words.empty(report.year);
  const ranked = report.families
    .filter((family) => family.hatch_of_set.rate !== null)
    .sort((a, b) => (b.hatch_of_set.rate ?? 0) - (a.hatch_of_set.rate ?? 0));
  const most = ranked[0];
  const least = ranked.at(-1);
  const pair = report.pairs.find(
    ({ a, b }) => [a, b].includes(most?.family ?? "") && [a, b].includes(least?.family ?? ""),
  );
  const apart = (p: number | null | undefined) => p !== null && p !== undefined && p <= APART_BELOW;
  if (most && least && most !== least && apart(report.p) && apart(pair?.p_holm)) {
    return words.apart(least.name, most.name);
  }
  return report.verdict.split(/: |\. | \(/)[0]?.replace(/\.$/, "") ?? "";
}

/** The verdict without the sentence that the headline has said. */
const restOf = (verdict: string, headline: string) =>
  verdict.startsWith(`${headline}. `) ? verdict.slice(headline.length + 2) : verdict;

/** So many stand on the page; the book has them all. */
const MOST_PROBLEMS = 6;

function SeasonProblems({ report }: { report: SeasonReport }) {
  if (report.problems.length === 0) return null;
  return (
    <section class="section">
      <h2>{words.problems}</h2>
      <ul class="rows">
        {report.problems.slice(0, MOST_PROBLEMS).map((problem) => (
          <li key={problem.message}>
            <b>{problem.message}</b> <span class="quiet">{problem.remedy}</span>
          </li>
        ))}
      </ul>
      {report.problems.length > MOST_PROBLEMS && (
        <p class="section-note">{words.moreProblems(report.problems.length - MOST_PROBLEMS)}</p>
      )}
    </section>
  );
}
