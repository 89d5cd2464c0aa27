// A rate as a dot, with the bar in which the true rate lies 95 times in 100. The number stands beside it in words.

interface IntervalBarProps {
  readonly rate: number | null;
  readonly low: number | null;
  readonly high: number | null;
  readonly name: string;
  /** Where the axis has its ticks, as shares of its length. */
  readonly ticks?: readonly number[];
}

const percent = (share: number) => `${(share * 100).toFixed(2)}%`;
const HALVES: readonly number[] = [0, 0.5, 1];

export function IntervalBar({ rate, low, high, name, ticks = HALVES }: IntervalBarProps) {
  return (
    <svg class="interval" role="img" aria-label={name} height="26">
      <line class="axis" x1="0" x2="100%" y1="20" y2="20" />
      {ticks.map((tick) => (
        <line class="axis" key={tick} x1={percent(tick)} x2={percent(tick)} y1="16" y2="24" />
      ))}
      {low !== null && high !== null && (
        <rect class="range" x={percent(low)} width={percent(Math.max(high - low, 0.005))} y="8" height="8" />
      )}
      {rate !== null && <circle class="dot" cx={percent(rate)} cy="12" r="5.5" />}
    </svg>
  );
}
