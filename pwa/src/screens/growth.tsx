// Weights as the server sees them: a curve for each batch and sex where the weights carry one, and who lags behind.
import { useEffect } from "preact/hooks";
import { growth as words } from "../app/words/weights.ts";
import { askGrowth, growthTold } from "../state/bird-reports.ts";
import type { GrowthReport, Ranked } from "../state/growth-report.ts";
import { standing } from "../state/standing.ts";
import { GrowthGroup, groupName, groupsIn } from "./growth-group.tsx";
import { massUnit } from "./measures.ts";
import { Page } from "./page.tsx";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { birdMassText } from "./scale-words.ts";
import { Section } from "./section.tsx";
import { clock, dayWords } from "./told-time.ts";

export function GrowthScreen() {
  useEffect(() => void askGrowth(), []);
  const answer = growthTold.value;
  const report = answer.kind === "unpaired" ? null : answer.report;
  if (!report) return <NoAnswer kind={answer.kind} />;
  const { zone } = standing.value.keeper;
  const when = `${dayWords(report.computedMs, zone)}, ${clock(report.computedMs, zone)}`;
  const slow = report.birds.filter((one) => one.slow);
  return (
    <Page over={words.over(when)} headline={headlineOf(report, slow.length)} under={words.compare}>
      {answer.kind === "away" && <Notice tone="watch">{words.stale(when)}</Notice>}
      <Weigh />
      {slow.length > 0 && (
        <Section title={words.slow}>
          <p class="quiet">{words.slowHint}</p>
          <Birds birds={slow} told={(one, mass) => words.slowLine(mass, Math.round(one.ofMeanPct), one.of)} />
        </Section>
      )}
      {groupsIn(report).map((group) => (
        <GrowthGroup key={group.key} group={group} />
      ))}
      {report.birds.length > 0 && (
        <details>
          <summary>{words.birds}</summary>
          <Birds birds={report.birds} told={(one, mass) => words.birdLine(mass, one.rank, one.of)} />
        </details>
      )}
      {report.goals.length > 0 && report.groups.length > 0 && (
        <Section title={words.goals}>
          <ul class="rows">
            {report.goals.map((goal) => (
              <li key={goal.words}>
                {words.goal(goal.pct, goal.words)} <span class="quiet">{goal.source}</span>
              </li>
            ))}
          </ul>
          <p class="quiet">{words.goalNote}</p>
        </Section>
      )}
      {report.problems.length > 0 && (
        <Section title={words.problems}>
          <ul class="rows">
            {report.problems.map(({ message, remedy }) => (
              <li key={message}>
                <b>{message}</b> <span class="quiet">{remedy}</span>
              </li>
            ))}
          </ul>
        </Section>
      )}
    </Page>
  );
}

function headlineOf({ groups, birds }: GrowthReport, slow: number): string {
  if (groups.length === 0) return words.title.none;
  if (slow > 0) return words.title.slow(slow);
  return birds.length > 0 ? words.title.calm : words.title.groups(new Set(groups.map(groupName)).size);
}

interface BirdsProps {
  readonly birds: readonly Ranked[];
  readonly told: (one: Ranked, mass: string) => string;
}

function Birds({ birds, told }: BirdsProps) {
  const unit = massUnit(standing.value);
  return (
    <ul class="lines">
      {birds.map((one) => (
        <li key={one.bird}>
          <a class="bird-link" href={`/bird/${one.bird}`}>
            {one.label}
          </a>
          <span>{told(one, birdMassText(one.massG, unit))}</span>
        </li>
      ))}
    </ul>
  );
}

function Weigh() {
  return (
    <div class="acts">
      <a class="press firm" href="/birds/weigh">
        {words.weigh}
      </a>
    </div>
  );
}

function NoAnswer({ kind }: { kind: "asking" | "away" | "fresh" | "unpaired" }) {
  if (kind === "asking") return <Page headline={words.waiting} />;
  const unpaired = kind === "unpaired";
  return (
    <Page headline={words.none.title} under={unpaired ? words.none.unpaired : words.none.away}>
      <div class="acts">
        {unpaired ? (
          <a class="press main" href="/pair">
            {words.none.go}
          </a>
        ) : (
          <Press kind="main" onPress={() => void askGrowth()}>
            {words.none.again}
          </Press>
        )}
      </div>
      <Weigh />
    </Page>
  );
}
