// A setting's whole story on one line of days: what stands out, eggs and chicks, air, weight, power, and a table behind.
import { useEffect, useMemo, useState } from "preact/hooks";
import { timeLine as words } from "../app/words/time-line.ts";
import { askSetting, settingTold } from "../state/reports.ts";
import { standing } from "../state/standing.ts";
import { inUnit, temperatureUnit } from "./measures.ts";
import { type Reach, type Tick, ticksBetween } from "./parts/line-chart.tsx";
import { Press } from "./parts/press.tsx";
import { type Lane, TimeLine } from "./parts/time-line.tsx";
import { Wide } from "./parts/wide.tsx";
import type { SettingView } from "./setting-view.ts";
import { type PlacedFinding, placedFindings } from "./time-line-findings.ts";
import { timeRows } from "./time-line-rows.ts";
import { type TimeLine as Line, timeLine } from "./time-line-view.ts";
import { findingOf, momentWords, spellWords } from "./told-finding.ts";

const DAY_MS = 86_400_000;

interface TimeLineProps {
  readonly view: SettingView;
  readonly now_ms: number;
}

/** Where the side bar stands (shell.css), there is room for the line at once. */
export const isDesk = () => matchMedia("(min-width: 56.25rem)").matches;

/** On a phone it opens by a tap, and nothing is reckoned before. */
export function TimeLineToOpen(props: TimeLineProps) {
  const [open, setOpen] = useState(false);
  return (
    <details onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
      <summary>{words.open}</summary>
      {open && <SettingTimeLine {...props} />}
    </details>
  );
}

export function SettingTimeLine({ view, now_ms }: TimeLineProps) {
  const totals = standing.value;
  const { id } = view.setting;
  useEffect(() => void askSetting(id), [id]);
  const answer = settingTold.value;
  const last = answer.kind === "unpaired" ? null : answer.report;
  const report = last?.setting === id ? last : null;
  const line = useMemo(() => timeLine(totals, view, now_ms), [totals, id, now_ms]);
  const found = report ? placedFindings(report, view, line, spellWords) : [];
  const seen =
    view.inShell > 0
      ? words.running(view.day, view.inShell)
      : words.hatched(line.chicks, view.eggsSet, line.spreadH);
  const title = (report && findingOf(report)) ?? seen;
  return (
    <section class="section story-line">
      <div class="title-line">
        <h2>{title}</h2>
        <div class="acts">
          <Press kind="plain" onPress={() => window.print()}>
            {words.print}
          </Press>
        </div>
      </div>
      <TimeLine
        name={words.name(line.endDay)}
        endDay={line.endDay}
        lanes={lanesOf(line, view)}
        stones={line.stones.map(({ day, what }) => ({ day, text: words.milestone[what](day) }))}
        cuts={line.cuts}
        brackets={found}
        today={view.inShell > 0 && view.dayNow <= line.endDay ? view.dayNow : null}
        caption={words.key}
      />
      <Findings found={found} />
      <p class="quiet small">{report ? words.of(momentWords(report.computedMs)) : words.seenHere}</p>
      <Listed view={view} />
    </section>
  );
}

function Findings({ found }: { found: readonly PlacedFinding[] }) {
  if (found.length === 0) return null;
  return (
    <>
      <h3>{words.findings}</h3>
      <ol class="rows">
        {found.map((one, i) => (
          <li key={one.words}>
            <p>{words.finding(i + 1, one.words)}</p>
            {one.causes.length > 0 && (
              <p class="quiet">{words.often(one.causes.map((cause) => cause.words).join("; "))}</p>
            )}
          </li>
        ))}
      </ol>
      {found.some((one) => one.causes.length > 0) && <p class="quiet small">{words.never}</p>}
    </>
  );
}

function lanesOf(line: Line, view: SettingView): Lane[] {
  const unit = temperatureUnit(standing.value);
  const lanes: Lane[] = [
    {
      title:
        line.chicks > 0
          ? words.lanes.eggs(view.eggsSet, line.outBefore, line.chicks)
          : words.lanes.eggsSoFar(view.eggsSet, line.outBefore),
      y: [0, Math.max(1, view.eggsSet)],
      ticks: ticksOf([0, Math.max(1, view.eggsSet)], 3),
      seen: [line.inShell],
      steps: true,
      rising: line.hatched,
      rings: line.candled,
      squares: line.opened,
    },
  ];
  const warm = line.warmth.map(({ x, y }) => ({ x, y: inUnit(y, unit) }));
  const band = line.warmthBand.map(({ x, low, high }) => ({
    x,
    low: inUnit(low, unit),
    high: inUnit(high, unit),
  }));
  if (warm.length > 0) {
    const y = room([...warm.map((one) => one.y), ...band.flatMap((one) => [one.low, one.high])]);
    const [low, high] = [Math.min(...warm.map((one) => one.y)), Math.max(...warm.map((one) => one.y))];
    const title = words.lanes.air(
      low.toFixed(1),
      `${high.toFixed(1)} °${unit}`,
      line.air.length,
      line.airOut,
    );
    lanes.push({ title, y, ticks: bandTicks(y, band[0]), band, seen: [warm] });
  }
  if (line.humidity.length > 0) {
    const moist = line.humidity.map((one) => one.y);
    const y = room(moist);
    const title = words.lanes.humidity(Math.round(Math.min(...moist)), Math.round(Math.max(...moist)));
    lanes.push({ title, y, ticks: ticksOf(y, 3), seen: [line.humidity] });
  }
  const weighed = line.weights.flat();
  const last = weighed.reduce((a, b) => (b.x > a.x ? b : a), { x: 0, y: 0 });
  if (last.x > 0) {
    const wanted = line.weightBand.at(-1);
    const y: [number, number] = [Math.max(...weighed.map((one) => one.y), wanted?.high ?? 0) * 1.08, 0];
    const title =
      words.lanes.weight(last.y.toFixed(1), Math.round(last.x)) +
      (wanted ? words.lanes.wanted(wanted.low, wanted.high, wanted.x) : "");
    lanes.push({ title, y, ticks: ticksOf([0, y[0]], 3), band: line.weightBand, seen: line.weights });
  }
  return lanes;
}

const ticksOf = ([low, high]: readonly [number, number], most: number) =>
  ticksBetween(low, high, most).map((at) => ({ at, text: String(at) }));

/** The ends of the band first; of all others those with room. */
function bandTicks(y: readonly [number, number], band?: Reach): Tick[] {
  const ends = band ? [band.low, band.high].map((at) => ({ at, text: at.toFixed(1) })) : [];
  return [...ends, ...ticksOf(y, 3)].filter(
    ({ at }, i, all) => !all.some((one, j) => j < i && Math.abs(one.at - at) < (y[1] - y[0]) / 5),
  );
}

function room(values: readonly number[]): [number, number] {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const more = Math.max(0.5, (high - low) * 0.1);
  return [low - more, high + more];
}

function Listed({ view }: { view: SettingView }) {
  const totals = standing.value;
  const { table, columns } = words;
  return (
    <details>
      <summary>{table}</summary>
      <Wide label={table}>
        <table>
          <thead>
            <tr>
              {[columns.day, columns.when, columns.what].map((one) => (
                <th scope="col" key={one}>
                  {one}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {timeRows(totals, view).map(({ atMs, what }) => (
              <tr key={`${atMs} ${what}`}>
                <th scope="row">{((atMs - view.setting.setAtMs) / DAY_MS).toFixed(1)}</th>
                <td>{momentWords(atMs)}</td>
                <td>{what}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
    </details>
  );
}
