// A rate in a list of measures: what it is, the bar with its interval, the count it stands on.
import { setting as words } from "../app/words/rooms.ts";
import type { Rate } from "../trade/proportions.ts";
import { IntervalBar } from "./parts/interval-bar.tsx";

interface RateLineProps {
  readonly label: string;
  readonly rate: Rate;
  readonly note?: string;
}

/** Belongs in a `dl` of the class "measures". */
export function RateLine({ label, rate, note }: RateLineProps) {
  const { low, high } = rate;
  const told =
    low === null || high === null
      ? words.notYet
      : words.between(Math.round(low * 100), Math.round(high * 100));
  const bar = `${label}: ${words.of(rate.k, rate.n)}, ${told}`;
  return (
    <div class="measure">
      <dt>
        {label}
        {note && <span class="quiet"> {note}</span>}
      </dt>
      <dd class="bar">
        <IntervalBar rate={rate.rate} low={low} high={high} name={bar} />
      </dd>
      <dd class="words nowrap">{rate.n === 0 ? words.notYet : words.of(rate.k, rate.n)}</dd>
    </div>
  );
}
