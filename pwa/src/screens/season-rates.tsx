// A rate in the season's tables: its bar, and beside it what was seen with the interval in figures.
import { season as words } from "../app/words/season.ts";
import type { Rate } from "../trade/proportions.ts";
import { BarAxis, rateMarks } from "./parts/bar-axis.tsx";
import { IntervalBar } from "./parts/interval-bar.tsx";

interface RateCellsProps {
  readonly rate: Rate;
  readonly what: string;
  readonly name: string;
  /** The end of the axis, a share of 1. */
  readonly most?: number;
}

/** Two cells: the bar, and "27 of 29, 93 % (78 to 98)". */
export function RateCells({ rate, what, name, most = 1 }: RateCellsProps) {
  const { k, n, low, high } = rate;
  const told =
    low === null || high === null
      ? `${name}, ${what}: ${words.noRate}`
      : words.rateName(what, name, k, n, Math.round(low * 100), Math.round(high * 100));
  const on = (share: number | null) => (share === null ? null : share / most);
  return (
    <>
      <td class="bar">
        <IntervalBar rate={on(rate.rate)} low={on(low)} high={on(high)} name={told} />
      </td>
      <td class="seen">
        <Seen rate={rate} />
      </td>
    </>
  );
}

/** "27 of 29, 93 % (78 to 98), up to 2 more"; on a narrow sheet it breaks between the two. */
export function Seen({ rate: { k, n, rate, low, high, open } }: { rate: Rate }) {
  if (rate === null) return <span class="quiet">{words.noRate}</span>;
  return (
    <>
      <span class="nowrap">{`${words.count(k, n)},`}</span>{" "}
      <span class="nowrap">{words.range(rate, low, high)}</span>
      {open ? <span class="nowrap">, {words.more(open)}</span> : null}
    </>
  );
}

/** A second row of heads: the axis above each column of bars. columns: how many cells lie between, null for an axis. */
export function AxisRow({ columns, most = 1 }: { columns: readonly (number | null)[]; most?: number }) {
  return (
    <tr class="axis-row">
      {columns.map((cells, at) =>
        cells === null ? (
          <td class="bar" key={at}>
            <BarAxis marks={rateMarks(most)} />
          </td>
        ) : (
          <td colSpan={cells} key={at} />
        ),
      )}
    </tr>
  );
}

interface RateHeadsProps {
  /** What a row is; nothing where the rows say it. */
  readonly of?: string;
  /** What each bar tells. */
  readonly bars: readonly string[];
  /** A figure behind the bars. */
  readonly last?: string;
}

/** The heads of a table of how many eggs were set and of rates, above their axes. */
export function RateHeads({ of, bars, last }: RateHeadsProps) {
  return (
    <thead>
      <tr class="two-heads">
        {of ? <th scope="col">{of}</th> : <td />}
        <th scope="col" class="r">
          {words.set}
        </th>
        {bars.map((bar) => (
          <th scope="col" colSpan={2} key={bar}>
            {bar}
          </th>
        ))}
        {last && (
          <th scope="col" class="r">
            {last}
          </th>
        )}
      </tr>
      <AxisRow columns={[2, ...bars.flatMap((_, at) => [null, last && at === bars.length - 1 ? 2 : 1])]} />
    </thead>
  );
}
