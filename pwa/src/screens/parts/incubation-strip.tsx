// Incubation from set to hatch: a rule that fills, lamps at the candlings, a step at lockdown, a hatched field for the
// window in which chicks are due, a pin for today.
import { useId } from "preact/hooks";
import { placeLabels, type StripLabel } from "./strip-labels.ts";
import { useDrawnWidth } from "./width.ts";

interface IncubationStripProps {
  /** Day of incubation now, fractions allowed; below 0 before setting. */
  readonly day: number;
  readonly candleDays: readonly number[];
  readonly lockdownDay: number | null;
  readonly windowFrom: number;
  readonly windowTo: number;
  /** The whole strip in one sentence, for a screen reader. */
  readonly name: string;
  readonly words: {
    readonly today: string;
    readonly set: string;
    readonly lockdown: string;
    readonly hatch: string;
    readonly candle: (day: number) => string;
  };
}

export function IncubationStrip(props: IncubationStripProps) {
  const { day, candleDays, lockdownDay, windowFrom, windowTo, name, words } = props;
  const { ref, width, text } = useDrawnWidth<HTMLDivElement>();
  const hatching = useId();
  const char = text * 0.56;
  const lastDay = Math.max(windowTo, windowFrom + 1, day > windowTo ? windowTo + 1 : 0);
  const edge = 9;
  const at = (d: number) => edge + (Math.min(Math.max(d, 0), lastDay) / lastDay) * (width - 2 * edge);

  const labels: StripLabel[] = [
    ...(lockdownDay === null ? [] : [{ text: words.lockdown, x: at(lockdownDay), rank: 1, before: true }]),
    { text: words.hatch, x: (at(windowFrom) + at(windowTo)) / 2, rank: 2 },
    { text: words.set, x: at(0), rank: 3 },
    ...candleDays.map((d, i) => ({ text: words.candle(d), x: at(d), rank: 4 + i })),
  ];
  const top = text * 1.25;
  const rail = top + 22;
  const foot = rail + 16 + text;
  const [pin] = placeLabels([{ text: words.today, x: at(day), rank: 1 }], width, char);
  return (
    <div class="incubation" ref={ref}>
      <svg width={width} height={foot + text * 0.4} role="img" aria-label={name}>
        <defs>
          <pattern
            id={hatching}
            width="6"
            height="6"
            patternUnits="userSpaceOnUse"
            patternTransform="rotate(45)"
          >
            <path d="M0 0V6" stroke="currentColor" stroke-width="2.4" />
          </pattern>
        </defs>
        <rect class="rail" x={at(0)} y={rail - 4} width={at(lastDay) - at(0)} height="8" />
        <rect class="done" x={at(0)} y={rail - 4} width={at(day) - at(0)} height="8" />
        <rect
          x={at(windowFrom)}
          y={rail - 10}
          width={Math.max(8, at(windowTo) - at(windowFrom))}
          height="20"
          fill={`url(#${hatching})`}
        />
        {candleDays.map((d) => (
          <g key={d} transform={`translate(${at(d)} ${rail})`}>
            <circle class="lamp" r="7.5" />
            {d <= day && <circle r="3.2" fill="currentColor" />}
          </g>
        ))}
        {lockdownDay !== null && <path class="step" d={`M${at(lockdownDay)} ${rail - 13}V${rail + 13}`} />}
        {pin && (
          <>
            <text class="now" x={pin.left + pin.width / 2} y={top - 4} text-anchor="middle">
              {words.today}
            </text>
            <path d={`M${at(day)} ${rail - 10}l-7 -10h14z`} fill="currentColor" />
          </>
        )}
        {placeLabels(labels, width, char).map((label) => (
          <text key={label.text} x={label.left + label.width / 2} y={foot} text-anchor="middle">
            {label.text}
          </text>
        ))}
      </svg>
    </div>
  );
}
