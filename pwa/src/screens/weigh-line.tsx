// The loss line of a setting over its wished corridor, with where it leads and the table behind it.
import { weigh as words } from "../app/words/weigh.ts";
import { type LossOutlook, linePoints, type Weighings } from "../book/weighings.ts";
import { undo } from "../state/actions.ts";
import { standing } from "../state/standing.ts";
import { batchNames, unnamedFamily } from "./names.ts";
import { LineChart, type Mark, ticksBetween } from "./parts/line-chart.tsx";
import { ReadingsTable } from "./parts/readings-table.tsx";
import type { SettingView } from "./setting-view.ts";

interface WeighLineProps {
  readonly view: SettingView;
  readonly weighed: Weighings;
  readonly outlook: LossOutlook;
}

export function WeighLine({ view, weighed, outlook }: WeighLineProps) {
  const { points } = weighed;
  const { byDay, target, projection } = outlook;
  const marks = linePoints(points).map(([x, y]): Mark => ({ x, y }));
  const lots = [...new Set(points.map((point) => point.lot))];
  const seen = lots.map((lot) => {
    const own = marks.filter((_, i) => points[i]?.lot === lot);
    return (own[0]?.x ?? 0) > 0.5 ? [{ x: 0, y: 0 }, ...own] : own;
  });
  const lastDay = Math.max(...marks.map((mark) => mark.x));
  const end = Math.max(byDay ?? 0, lastDay, 1);
  const most = Math.max(5, ...marks.map((m) => m.y), target?.highPct ?? 0, projection?.highPct ?? 0) * 1.08;
  const ahead =
    projection && byDay !== null && byDay > lastDay
      ? [
          { x: lastDay, y: (projection.middlePct * lastDay) / byDay },
          { x: byDay, y: projection.middlePct },
        ]
      : [];
  const isShifted = points.some((point) => point.sinceDay >= 1);
  const told = points.map((point) => `day ${point.day.toFixed(0)} ${point.lossPct.toFixed(1)} %`).join(", ");
  const leads =
    projection && byDay !== null
      ? words.chart.ahead(
          byDay,
          ...([projection.middlePct, projection.lowPct, projection.highPct].map((v) => v.toFixed(1)) as [
            string,
            string,
            string,
          ]),
        )
      : "";
  return (
    <>
      <LineChart
        name={words.chart.name(told, leads)}
        x={[0, end]}
        y={[most, 0]}
        xTicks={[...new Set([0, end, ...ticksBetween(0, end, 4)])].map((day) => ({
          at: day,
          text: String(day),
        }))}
        yTicks={ticksBetween(0, most, 4).map((loss) => ({ at: loss, text: String(loss) }))}
        axes={isShifted ? words.chart.sinceDay : words.chart.day}
        {...(target && byDay !== null
          ? {
              band: [
                { x: 0, low: 0, high: 0 },
                { x: byDay, low: target.lowPct, high: target.highPct },
              ],
              wished: [
                { x: 0, y: 0 },
                { x: byDay, y: target.targetPct },
              ],
            }
          : {})}
        seen={seen}
        ahead={ahead}
        reach={
          projection && byDay !== null ? { x: byDay, low: projection.lowPct, high: projection.highPct } : null
        }
      />
      <Listed view={view} weighed={weighed} />
    </>
  );
}

function Listed({ view, weighed }: Omit<WeighLineProps, "outlook">) {
  const names = batchNames(standing.value, view.batches);
  const { table, columns, takeBack } = words.chart;
  const tray = (lot: string | null) =>
    lot === null ? words.all : (names.get(lot) ?? unnamedFamily(standing.value));
  return (
    <ReadingsTable
      title={table}
      columns={[columns.day, columns.tray, columns.loss]}
      takeBack={takeBack}
      rows={weighed.points.map((point) => ({
        key: point.entry,
        head: point.day.toFixed(1),
        cells: [tray(point.lot), `${point.lossPct.toFixed(1)} %`],
        backName: words.chart.takeBackOf(point.day.toFixed(1)),
        onTakeBack: () => void undo(point.entry),
      }))}
    />
  );
}
