// The first week against what was published, and from the server's last answer survival by family and hatch, and alarms.
import { useEffect } from "preact/hooks";
import { losses as words } from "../app/words/losses.ts";
import { leftWithinSevenDays } from "../book/first-week.ts";
import { addsUp, canBe, mostLost, movesOf, type Tied } from "../book/tied.ts";
import { askBrood, broodTold } from "../state/brood-answers.ts";
import type { BroodReport, SurvivalGroup } from "../state/brood-report.ts";
import { standing } from "../state/standing.ts";
import { FEW, firstWeek, firstWeekBounds, firstWeekWords, WORDS } from "../trade/losses.ts";
import { sourceTitle } from "../trade/sources.ts";
import type { Batch } from "./brood-batch-view.ts";
import { unknownFamily } from "./names.ts";
import { IntervalBar } from "./parts/interval-bar.tsx";
import { LineChart, ticksBetween } from "./parts/line-chart.tsx";
import { Notice } from "./parts/notice.tsx";
import { Why } from "./parts/why.tsx";
import { Section } from "./section.tsx";
import { notWritten } from "./setting-view.ts";
import { dateTold, weekdayTold } from "./told-day.ts";
import { clock, dayWords } from "./told-time.ts";

/** Dead and missing of the first week; no figure for chicks that came from elsewhere. */
export function FirstWeek({ batch, now_ms }: { batch: Batch; now_ms: number }) {
  const { lot, species, tied, families, perhaps, bornMs } = batch;
  if (lot.came) return null;
  const isTied = tied.among.length > 0;
  const own = weekOf({ lots: [lot], among: [] }, now_ms, canBe(lot, tied));
  const all = weekOf(tied, now_ms, addsUp(tied));
  const within = perhaps.filter(({ atMs }) => bornMs === null || atMs <= bornMs + WEEK_MS);
  const more = Math.min(
    mostLost(lot, tied),
    within.reduce((sum, { n }) => sum + n, 0),
  );
  const [, most] = firstWeekBounds(species);
  const judged = isTied ? all : own;
  const isAbove =
    judged !== null &&
    firstWeek(species, judged.k, judged.n) === "above" &&
    (judged.k > 1 || judged.n >= FEW);
  return (
    <>
      <h3 class="section">{words.firstWeek}</h3>
      <p>
        {weekWords(own)} {own !== null && more > 0 && words.week.perhaps(more)}
      </p>
      {isTied && <p>{words.week.together(families, weekWords(all))}</p>}
      {most && <p class="quiet">{firstWeekWords(species)}</p>}
      {isAbove && (
        <Notice tone="watch">
          <p>{WORDS.first_week}</p>
        </Notice>
      )}
      {most && (
        <Why
          about={words.week.why.about}
          formula={words.week.why.formula}
          sources={[
            {
              title: sourceTitle(most.source) ?? most.source,
              status: most.status as "seen",
            },
          ]}
        />
      )}
    </>
  );
}

const WEEK_MS = 7 * 86_400_000;

interface Week {
  readonly k: number;
  readonly n: number;
  readonly culled: number;
  /** Of whom nobody wrote what became of them: then nothing is told of the others either. */
  readonly untold: number;
}

/** The first week of one batch or of several told together; null where their counts cannot be. */
function weekOf(tied: Tied, now_ms: number, isSound: boolean): Week | null {
  if (!isSound) return null;
  const { left, of: n } = leftWithinSevenDays(movesOf(tied), now_ms);
  const k = (left.get("died") ?? 0) + (left.get("missing") ?? 0);
  const untold = tied.lots.reduce((sum, lot) => sum + notWritten(lot), 0);
  return { k, n, culled: left.get("culled") ?? 0, untold };
}

function weekWords(week: Week | null): string {
  if (week === null) return words.week.cannotBe;
  const { k, n, culled, untold } = week;
  if (n === 0 && untold > 0) return words.week.untold(untold);
  const told =
    n === 0 ? words.week.unknown : n < FEW ? words.week.few(k, n) : words.week.many(k, n, pct(k / n));
  return culled > 0 ? `${told} ${words.week.culled(culled)}` : told;
}

const pct = (share: number) => (100 * share).toFixed(1);

export function Survival({ batch }: { batch: Batch }) {
  const { id } = batch.lot;
  useEffect(() => void askBrood(id), [id]);
  const answer = broodTold.value;
  const report = answer.kind === "unpaired" ? null : answer.report;
  const isHere = report !== null && report.lot === id;
  return (
    <>
      {isHere && <Alarms report={report} />}
      <Section title={words.survival.title}>
        {isHere ? <Curves report={report} /> : <p class="quiet">{words.survival.away}</p>}
      </Section>
    </>
  );
}

function Alarms({ report }: { report: BroodReport }) {
  if (report.alarms.length === 0) return null;
  return (
    <Section title={words.alarms}>
      {report.alarms.map((alarm) => (
        <Notice tone="loss" key={`${alarm.on} ${alarm.words}`}>
          <p>
            <b>{words.alarmOn(weekdayTold(alarm.on))}</b> {alarm.words}
          </p>
          <p>{alarm.thinkOf}</p>
          <p class="quiet small">{alarm.source}</p>
        </Notice>
      ))}
    </Section>
  );
}

function Curves({ report }: { report: BroodReport }) {
  const { zone } = standing.value.keeper;
  const [own] = report.groups;
  const when = `${dayWords(report.computedMs, zone)}, ${clock(report.computedMs, zone)}`;
  return (
    <>
      {own && own.points.length > 0 && <Curve group={own} />}
      <ul class="lines">
        {report.groups.map((group) => (
          <li key={`${group.family} ${group.hatchedOn}`} class="survival-row">
            <span>{words.survival.row(nameOf(group), dateTold(group.hatchedOn), group.n)}</span>
            <span>
              <Bar group={group} />
              <span class="quiet">{aliveWords(group)}</span>
            </span>
          </li>
        ))}
      </ul>
      {report.verdict && <p>{report.verdict}</p>}
      {report.toWatch.map((said) => (
        <p key={said}>{said}</p>
      ))}
      <p class="quiet">{words.survival.note}</p>
      <p class="quiet small">{words.survival.asked(when)}</p>
      <Why
        about={words.survival.why.about}
        formula={words.survival.why.formula}
        sources={[{ title: words.survival.why.source }]}
      />
    </>
  );
}

const nameOf = (group: SurvivalGroup) => group.familyName || unknownFamily(standing.value);

function aliveWords({ points, lastDay }: SurvivalGroup): string {
  const last = points.at(-1);
  if (last === undefined) return words.survival.all(lastDay);
  const { rate, low, high, day } = last;
  if (low === null || high === null) return words.survival.gone(day);
  const [of100, least, most] = [rate, low, high].map((share) => Math.round(100 * share));
  return words.survival.alive(of100 ?? 0, least ?? 0, most ?? 0, day);
}

function Bar({ group }: { group: SurvivalGroup }) {
  const last = group.points.at(-1);
  return (
    <IntervalBar
      rate={last ? last.rate : 1}
      low={last ? last.low : 1}
      high={last ? last.high : 1}
      name={`${nameOf(group)}: ${aliveWords(group)}`}
    />
  );
}

/** The share alive as steps, with its interval behind it. */
function Curve({ group }: { group: SurvivalGroup }) {
  const { points, lastDay } = group;
  const steps = [{ day: 0, rate: 1, low: 1, high: 1 }, ...points];
  const least = Math.min(...points.map(({ low, rate }) => low ?? rate));
  const foot = Math.max(0, Math.floor(least * 10) / 10);
  const seen = [...steps.map(({ day, rate }) => ({ x: day, y: 100 * rate }))];
  const end = Math.max(lastDay, points.at(-1)?.day ?? 0, 1);
  const band = steps.flatMap(({ low, high, rate }, i) => {
    const from = steps[i]?.day ?? 0;
    const to = steps[i + 1]?.day ?? end;
    const reach = { low: 100 * (low ?? rate), high: 100 * (high ?? rate) };
    return [
      { x: from, ...reach },
      { x: to, ...reach },
    ];
  });
  return (
    <LineChart
      name={words.survival.chart(nameOf(group), aliveWords(group))}
      x={[0, end]}
      y={[100 * foot, 100]}
      xTicks={ticksBetween(0, end).map((at) => ({ at, text: String(at) }))}
      yTicks={ticksBetween(100 * foot, 100).map((at) => ({ at, text: String(at) }))}
      axes={words.survival.axes}
      band={band}
      seen={[[...seen, { x: end, y: seen.at(-1)?.y ?? 100 }]]}
      steps
    />
  );
}
