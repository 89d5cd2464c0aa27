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
  const headline = report.titles.headline;
  const at_ms = Date.parse(report.computed_at) || now_ms;
  const when = `${dayWords(at_ms, zone)}, ${clock(at_ms, zone)}`;
  return (
    <Page headline={headline} over={words.over(year, when)} under={report.titles.under} beside={pages} wide>
      {answer.kind === "away" && <Notice tone="watch">{words.stale(when)}</Notice>}
      {report.settings > 0 && (
        <div class="season" data-rows={amountOf(report)}>
          <SeasonFamilies report={report} />
          <div class="beside">
            <SeasonFunnel report={report} />
            <SeasonHatches report={report} />
          </div>
          <SeasonCompared report={report} />
          <SeasonProblems report={report} />
          <div class="beside">
            <SeasonLosses report={report} />
            <SeasonChicks report={report} />
          </div>
          {report.storage && <p class="section-note">{report.storage}</p>}
          <SeasonGroups report={report} />
          <SeasonEarlier report={report} />
          <PaperLinks
            of={papers.season(year)}
            links={[
              { path: `papers/season/${year}.pdf`, what: papers.report },
              { path: `papers/marks/${year}.pdf`, what: papers.marks },
              { path: `exports/season.xlsx?year=${year}`, what: papers.sheet },
            ]}
          />
        </div>
      )}
    </Page>
  );
}

/** How much is to be set on two sheets: each family has a row in four tables. */
function amountOf({ families, hatches, by_egg_age, by_place, by_month, problems }: SeasonReport): string {
  const groups = by_egg_age.length + by_place.length + by_month.length;
  const rows = 4 * families.length + hatches.length + groups + Math.min(problems.length, MOST_PROBLEMS);
  return rows > 40 ? "many" : "few";
}

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
            <b>{problem.message}</b> <span class="quiet">{problem.remedy}</span>{" "}
            {problem.path && (
              <a class="press bare" href={problem.path}>
                {problem.where}
              </a>
            )}
          </li>
        ))}
      </ul>
      {report.problems.length > MOST_PROBLEMS && (
        <p class="section-note">{words.moreProblems(report.problems.length - MOST_PROBLEMS)}</p>
      )}
    </section>
  );
}
