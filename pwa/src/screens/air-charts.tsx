// The last seven days of a machine's air as lines over the band, with the readings as a table behind them.
import { air as words } from "../app/words/air.ts";
import type { AirReading } from "../book/readings.ts";
import { undo } from "../state/actions.ts";
import { standing } from "../state/standing.ts";
import type { Range } from "../trade/species.ts";
import { readingText } from "./air-line.tsx";
import type { AirView } from "./air-view.ts";
import { inUnit, temperatureUnit } from "./measures.ts";
import { LineChart, type Mark, ticksBetween } from "./parts/line-chart.tsx";
import { ReadingsTable } from "./parts/readings-table.tsx";
import { clock, dateWords, dayWords } from "./told-time.ts";

const DAYS = 7;
const DAY_MS = 86_400_000;
/** More dots than that are one blot: of a thermometer's readings every n-th is drawn. */
const MOST_DRAWN = 240;
const MOST_LISTED = 30;

export function AirCharts({ view, now_ms: drawn_ms }: { view: AirView; now_ms: number }) {
  const now_ms = Math.max(drawn_ms, view.last?.atMs ?? 0); // the clock of a screen lags behind what was just read
  const shown = view.readings.filter((one) => one.atMs > now_ms - DAYS * DAY_MS);
  if (shown.length === 0) return null;
  const unit = temperatureUnit(standing.value);
  const [first] = view.wanted;
  const moist = shown.filter((one) => one.humidityPct !== null);
  const band = first?.bandC ? (first.bandC.map((c) => inUnit(c, unit)) as [number, number]) : null;
  const warmth = (one: AirReading) => inUnit(one.dryC, unit);
  const humidity = (one: AirReading) => one.humidityPct ?? 0;
  const out = (list: readonly AirReading[], of: (one: AirReading) => number, range: Range) =>
    list.filter((one) => of(one) < range[0] - 1e-6 || of(one) > range[1] + 1e-6).length;
  return (
    <section class="section">
      <Chart
        title={
          band
            ? words.chart.temperature(shown.length, out(shown, warmth, band))
            : words.chart.noBand(shown.length)
        }
        marks={shown}
        of={warmth}
        unit={` °${unit}`}
        band={band}
        now_ms={now_ms}
      />
      {moist.length > 0 && first && (
        <Chart
          title={words.chart.humidity(
            moist.length,
            out(moist, (one) => Math.round(humidity(one)), roundedOut(first.humidity)),
          )}
          marks={moist}
          of={humidity}
          unit=" %"
          band={first.humidity}
          now_ms={now_ms}
        />
      )}
      <Listed readings={shown} />
    </section>
  );
}

const roundedOut = ([low, high]: Range): Range => [Math.round(low), Math.round(high)];

interface ChartProps {
  readonly title: string;
  readonly marks: readonly AirReading[];
  readonly of: (one: AirReading) => number;
  readonly unit: string;
  readonly band: Range | null;
  readonly now_ms: number;
}

function Chart({ title, marks, of, unit, band, now_ms }: ChartProps) {
  const { zone } = standing.value.keeper;
  const from = Math.max(now_ms - DAYS * DAY_MS, Math.min(marks[0]?.atMs ?? now_ms, now_ms - DAY_MS / 2));
  const every = Math.ceil(marks.length / MOST_DRAWN);
  const drawn = marks.filter((_, i) => i % every === 0 || i === marks.length - 1);
  const line = drawn.map((one): Mark => ({ x: one.atMs, y: of(one) }));
  const values = [...line.map((mark) => mark.y), ...(band ?? [])];
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const room = Math.max(0.5, (high - low) * 0.12);
  const ends: Range = [low - room, high + room];
  const last = line.at(-1);
  const name = `${title}. ${words.chart.last}: ${line.length > 0 ? `${Math.min(...line.map((m) => m.y)).toFixed(1)} to ${Math.max(...line.map((m) => m.y)).toFixed(1)}${unit}, last ${last?.y.toFixed(1)}${unit}` : ""}.`;
  return (
    <>
      <h2>{title}</h2>
      <LineChart
        name={name}
        x={[from, now_ms]}
        y={ends}
        xTicks={[from, (from + now_ms) / 2, now_ms].map((at) => ({
          at,
          text: now_ms - from < 1.5 * DAY_MS ? clock(at, zone) : dateWords(at, zone),
        }))}
        yTicks={ticksBetween(ends[0], ends[1]).map((at) => ({ at, text: String(at) }))}
        axes={`${words.chart.last};${unit}`}
        {...(band ? { band: [from, now_ms].map((x) => ({ x, low: band[0], high: band[1] })) } : {})}
        seen={[line]}
      />
    </>
  );
}

function Listed({ readings }: { readings: readonly AirReading[] }) {
  const { zone } = standing.value.keeper;
  const latest = [...readings].reverse().slice(0, MOST_LISTED);
  const when = (one: AirReading) => `${dayWords(one.atMs, zone)}, ${clock(one.atMs, zone)}`;
  const { table, columns, takeBack } = words.chart;
  return (
    <ReadingsTable
      title={table}
      columns={[columns.when, columns.temperature]}
      takeBack={takeBack}
      rows={latest.map((one) => ({
        key: one.entry,
        head: when(one),
        cells: [
          <>
            {readingText(one.dryC, one.humidityPct)}
            {one.corrected && <span class="quiet small">{` ${words.chart.corrected}`}</span>}
          </>,
        ],
        backName: words.chart.takeBackOf(when(one)),
        onTakeBack: () => void undo(one.entry),
      }))}
    />
  );
}
