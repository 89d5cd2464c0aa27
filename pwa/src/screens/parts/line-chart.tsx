// Readings over time as a line: the wished band behind it, what was read as dots, where it leads as a dotted line with
// its error bar. State is told by the kind of line, never by colour alone.
import { placeLabels } from "./strip-labels.ts";
import { useDrawnWidth } from "./width.ts";

type Span = readonly [from: number, to: number];

export interface Mark {
  readonly x: number;
  readonly y: number;
}

export interface Reach {
  readonly x: number;
  readonly low: number;
  readonly high: number;
}

export interface Tick {
  readonly at: number;
  readonly text: string;
}

interface LineChartProps {
  /** The whole drawing in one sentence, for a screen reader. */
  readonly name: string;
  readonly x: Span;
  /** The first value lies at the foot; a line that falls has the greater one first. */
  readonly y: Span;
  readonly xTicks: readonly Tick[];
  readonly yTicks: readonly Tick[];
  /** What the axes are, under the drawing. */
  readonly axes: string;
  readonly band?: readonly Reach[];
  readonly wished?: readonly Mark[];
  readonly seen: readonly (readonly Mark[])[];
  readonly ahead?: readonly Mark[];
  readonly reach?: Reach | null;
  /** Goes up in steps: a count between looks. */
  readonly steps?: boolean;
}

export function LineChart(props: LineChartProps) {
  const { name, x, y, xTicks, yTicks, axes, band = [], wished = [], seen, ahead = [], reach, steps } = props;
  const { ref, width, text } = useDrawnWidth<HTMLElement>();
  const char = text * 0.56;
  const left = Math.max(1, ...yTicks.map((tick) => tick.text.length)) * char + 10;
  const right = width - 12;
  const top = text * 0.75;
  const foot = top + text * 11;
  const at = (value: number) => left + ((value - x[0]) / (x[1] - x[0] || 1)) * (right - left);
  const up = (value: number) => foot - ((value - y[0]) / (y[1] - y[0] || 1)) * (foot - top);
  const path = (marks: readonly Mark[]) =>
    marks.map((mark, i) => `${i === 0 ? "M" : "L"}${at(mark.x)} ${up(mark.y)}`).join("");
  const stepped = (marks: readonly Mark[]) =>
    marks
      .map((mark, i) => (i === 0 ? `M${at(mark.x)} ${up(mark.y)}` : `H${at(mark.x)}V${up(mark.y)}`))
      .join("");
  const wish = [
    ...band.map((one) => `${at(one.x)} ${up(one.high)}`),
    ...[...band].reverse().map((one) => `${at(one.x)} ${up(one.low)}`),
  ];
  const labels = xTicks.map((tick, i) => ({ text: tick.text, x: at(tick.at), rank: i }));
  return (
    <figure class="line-chart" ref={ref}>
      <svg width={width} height={foot + text * 1.75} role="img" aria-label={name}>
        {wish.length > 0 && <path class="band" d={`M${wish.join("L")}Z`} />}
        <path class="axis" d={`M${left} ${top}V${foot}H${right}`} />
        {wished.length > 1 && <path class="wished" d={path(wished)} />}
        {ahead.length > 1 && <path class="ahead" d={path(ahead)} />}
        {reach && (
          <path
            class="reach"
            d={`M${at(reach.x)} ${up(reach.low)}V${up(reach.high)}M${at(reach.x) - 6} ${up(reach.low)}h12M${at(reach.x) - 6} ${up(reach.high)}h12`}
          />
        )}
        {seen.map((marks, i) => (
          <g key={i}>
            {marks.length > 1 && <path class="seen" d={steps ? stepped(marks) : path(marks)} />}
            {marks.length <= 60 &&
              marks.map((mark) => <circle key={mark.x} cx={at(mark.x)} cy={up(mark.y)} r="5" />)}
          </g>
        ))}
        {yTicks.map((tick) => (
          <text key={tick.at} x={left - 8} y={up(tick.at) + text * 0.35} text-anchor="end">
            {tick.text}
          </text>
        ))}
        {placeLabels(labels, width, char).map((label) => (
          <text key={label.x} x={label.left + label.width / 2} y={foot + text * 1.3} text-anchor="middle">
            {label.text}
          </text>
        ))}
      </svg>
      <figcaption class="quiet small">{axes}</figcaption>
    </figure>
  );
}

/** Round values from low to high, about four of them: 36, 37, 38 or 0, 5, 10, 15. */
export function ticksBetween(low: number, high: number, most = 5): number[] {
  const rough = (high - low) / most;
  const size = 10 ** Math.floor(Math.log10(rough || 1));
  const step = [1, 2, 5, 10].map((times) => times * size).find((one) => one >= rough) ?? size * 10;
  const first = Math.ceil(low / step - 1e-9);
  const last = Math.floor(high / step + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) =>
    Number(((first + i) * step).toFixed(6)),
  );
}
