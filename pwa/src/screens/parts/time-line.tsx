// Lanes one above the other over one axis of days, with upright dashes through all of them: what fell together in time
// stands together on the page. State is told by the kind of line and mark, so that it prints in black and white.
import type { Mark, Reach, Tick } from "./line-chart.tsx";
import { placeLabels } from "./strip-labels.ts";
import { useDrawnWidth } from "./width.ts";

export interface Lane {
  /** Above the lane, and its name to a reader. */
  readonly title: string;
  readonly y: readonly [low: number, high: number];
  readonly ticks: readonly Tick[];
  readonly band?: readonly Reach[];
  readonly seen: readonly (readonly Mark[])[];
  /** Drawn in steps, dashed. */
  readonly rising?: readonly Mark[];
  /** The seen lines go in steps. */
  readonly steps?: boolean;
  readonly rings?: readonly Mark[];
  readonly squares?: readonly Mark[];
}

export interface Bracket {
  readonly fromDay: number;
  readonly toDay: number;
}

interface TimeLineProps {
  readonly name: string;
  readonly endDay: number;
  readonly lanes: readonly Lane[];
  readonly stones: readonly { readonly day: number; readonly text: string }[];
  readonly cuts: readonly Bracket[];
  /** Numbered from 1 in this order, over the lanes. */
  readonly brackets: readonly Bracket[];
  readonly today: number | null;
  readonly caption: string;
}

export function TimeLine(props: TimeLineProps) {
  const { name, endDay, lanes, stones, cuts, brackets, today, caption } = props;
  const { ref, width, text } = useDrawnWidth<HTMLElement>();
  const char = text * 0.56;
  const left =
    Math.max(1, ...lanes.flatMap((lane) => lane.ticks.map((tick) => tick.text.length))) * char + 10;
  const right = width - 14;
  const at = (day: number) => left + (Math.min(Math.max(day, 0), endDay) / endDay) * (right - left);
  const labels = stones.map((stone, i) => ({ text: stone.text, x: at(stone.day), rank: i }));
  const rows = stacked(brackets.map(({ fromDay, toDay }) => reachOf(at(fromDay), at(toDay), text)));
  const row = text * 1.6;
  const tall = text * 6;
  const svg = (height: number) => ({ width, height, viewBox: `0 0 ${width} ${height}` });
  const through = (height: number) => (
    <>
      {cuts.map((cut) => (
        <rect
          class="cut"
          key={cut.fromDay}
          x={at(cut.fromDay)}
          width={Math.max(4, at(cut.toDay) - at(cut.fromDay))}
          height={height}
        />
      ))}
      {stones.map(({ day }) => (
        <path class="stone" key={day} d={`M${at(day)} 0V${height}`} />
      ))}
      {today !== null && <path class="today" d={`M${at(today)} 0V${height}`} />}
    </>
  );
  const over = text * 1.5 + (rows.length > 0 ? (Math.max(...rows) + 1) * row : 0);
  return (
    <figure class="line-chart time-line" ref={ref} aria-label={name}>
      <svg {...svg(over)} aria-hidden="true">
        {placeLabels(labels, width, char).map((label) => (
          <text key={label.x} x={label.left + label.width / 2} y={text} text-anchor="middle">
            {label.text}
          </text>
        ))}
        <g transform={`translate(0 ${text * 1.3})`}>{through(over)}</g>
        {brackets.map(({ fromDay, toDay }, i) => {
          const y = text * 1.5 + ((rows[i] ?? 0) + 0.5) * row;
          const [from, to] = reachOf(at(fromDay), at(toDay), text);
          return (
            <g class="bracket" key={`${fromDay} ${toDay}`} data-from={fromDay} data-to={toDay}>
              <path
                d={`M${at(fromDay)} ${y - 5}v10M${at(fromDay)} ${y}H${Math.max(at(toDay), at(fromDay) + 3)}m0 -5v10`}
              />
              <circle cx={(from + to) / 2} cy={y} r={text * 0.7} />
              <text x={(from + to) / 2} y={y + text * 0.34} text-anchor="middle">
                {i + 1}
              </text>
            </g>
          );
        })}
      </svg>
      {lanes.map((lane) => {
        const up = (value: number) =>
          tall - ((value - lane.y[0]) / (lane.y[1] - lane.y[0] || 1)) * (tall - 6);
        return (
          <div key={lane.title}>
            <p>{lane.title}</p>
            <svg {...svg(tall + 4)} role="img" aria-label={lane.title}>
              {lane.band && lane.band.length > 0 && <path class="band" d={bandPath(lane.band, at, up)} />}
              {through(tall)}
              <path class="axis" d={`M${left} 0V${tall}H${right}`} />
              {lane.seen.map((marks, i) => (
                <g key={i}>
                  <path class="seen" d={path(marks, at, up, lane.steps ?? false)} />
                  {!lane.steps && marks.length <= 60 && dots(marks, at, up)}
                </g>
              ))}
              {lane.rising && <path class="rising" d={path(lane.rising, at, up, true)} />}
              {lane.rings?.map((mark) => (
                <circle class="ring" key={mark.x} cx={at(mark.x)} cy={up(mark.y)} r="6" />
              ))}
              {lane.squares?.map((mark) => (
                <rect
                  key={mark.x}
                  class="square"
                  x={at(mark.x) - 5}
                  y={up(mark.y) - 5}
                  width="10"
                  height="10"
                />
              ))}
              {lane.ticks.map((tick) => (
                <text key={tick.at} x={left - 8} y={up(tick.at) + text * 0.35} text-anchor="end">
                  {tick.text}
                </text>
              ))}
            </svg>
          </div>
        );
      })}
      <svg {...svg(text * 1.5)} aria-hidden="true">
        {placeLabels(
          weeks(endDay).map((day) => ({ text: String(day), x: at(day), rank: day === endDay ? 0 : day + 1 })),
          width,
          char,
        ).map((label) => (
          <text key={label.x} x={label.left + label.width / 2} y={text * 1.1} text-anchor="middle">
            {label.text}
          </text>
        ))}
      </svg>
      <figcaption class="quiet small">{caption}</figcaption>
    </figure>
  );
}

type Scale = (value: number) => number;

function path(marks: readonly Mark[], at: Scale, up: Scale, steps: boolean): string {
  return marks
    .map(({ x, y }, i) =>
      i === 0 ? `M${at(x)} ${up(y)}` : steps ? `H${at(x)}V${up(y)}` : `L${at(x)} ${up(y)}`,
    )
    .join("");
}

const dots = (marks: readonly Mark[], at: Scale, up: Scale) =>
  marks.map((mark) => <circle key={mark.x} cx={at(mark.x)} cy={up(mark.y)} r="4" />);

function bandPath(band: readonly Reach[], at: Scale, up: Scale): string {
  const high = band.map((one) => `${at(one.x)} ${up(one.high)}`);
  const low = [...band].reverse().map((one) => `${at(one.x)} ${up(one.low)}`);
  return `M${[...high, ...low].join("L")}Z`;
}

/** What a bracket with its number takes of the width. */
function reachOf(from: number, to: number, text: number): readonly [number, number] {
  const short = Math.max(0, text * 1.6 - (to - from)) / 2;
  return [from - short, to + short];
}

/** A row for each bracket, as low as it goes without touching another. */
function stacked(reaches: readonly (readonly [number, number])[]): number[] {
  const ends: number[] = [];
  return reaches.map(([from, to]) => {
    const free = ends.findIndex((end) => end + 4 <= from);
    const row = free === -1 ? ends.length : free;
    ends[row] = to;
    return row;
  });
}

const weeks = (endDay: number) => [...Array.from({ length: Math.ceil(endDay / 7) }, (_, i) => i * 7), endDay];
