// The windows of a season's hatches over one axis of days, with what is usual, and which hatches cannot say.
import { season as words } from "../app/words/season.ts";
import type { SeasonReport } from "../state/season-report.ts";
import { inASentence } from "../trade/species.ts";
import { BarAxis } from "./parts/bar-axis.tsx";
import { IntervalBar } from "./parts/interval-bar.tsx";
import { SeasonTable } from "./season-table.tsx";
import { speciesName } from "./species-name.ts";

interface Window {
  readonly href?: string;
  readonly where: string;
  readonly first: number;
  readonly half: number | null;
  readonly last: number;
}

const MOST_TICKS = 4;
const DAY_H = 24;
const dayText = (hours: number): string => (hours / DAY_H).toFixed(1);

export function SeasonHatches({ report }: { report: SeasonReport }) {
  const title = report.titles.windows;
  const leftOut = report.left_out;
  if (report.hatches.length === 0) {
    return leftOut ? <SeasonTable title={title} notes={[leftOut]} children={null} /> : null;
  }
  const seen = report.hatches.map(
    ({ setting, set_words, place, first_h, median_h, last_h }): Window => ({
      href: `/setting/${setting}`,
      where: [set_words, place].filter(Boolean).join(", "),
      first: first_h,
      half: median_h,
      last: last_h,
    }),
  );
  const spans = new Map(
    report.hatches.flatMap(({ species, usual_h }) => (usual_h ? [[species, usual_h] as const] : [])),
  );
  const usual = [...spans].map(
    ([species, [first, last]]): Window => ({
      where: words.windows.usual(inASentence(speciesName(species))),
      first,
      half: null,
      last,
    }),
  );
  const all = [...seen, ...usual];
  const low = Math.floor(Math.min(...all.map((one) => one.first)) / DAY_H);
  const high = Math.max(low + 1, Math.ceil(Math.max(...all.map((one) => one.last)) / DAY_H));
  const share = (day: number) => (day - low) / (high - low);
  const each = Math.ceil((high - low) / MOST_TICKS);
  const days = Array.from({ length: Math.floor((high - low) / each) + 1 }, (_, at) => low + at * each);
  const marks = days.map((day) => [share(day), String(day)] as const);
  return (
    <SeasonTable title={title} notes={[words.windows.note, leftOut]}>
      <thead>
        <tr class="two-heads">
          <th scope="col">{words.windows.hatch}</th>
          <th scope="col" colSpan={2}>
            {words.windows.out}
          </th>
        </tr>
        <tr class="axis-row">
          <td />
          <td class="bar">
            <BarAxis marks={marks} />
          </td>
          <td />
        </tr>
      </thead>
      <tbody>
        {all.map((one) => (
          <tr key={one.href ?? one.where}>
            <WindowCells window={one} share={(hours) => share(hours / DAY_H)} ticks={days.map(share)} />
          </tr>
        ))}
      </tbody>
    </SeasonTable>
  );
}

interface WindowCellsProps {
  readonly window: Window;
  readonly share: (hours: number) => number;
  readonly ticks: readonly number[];
}

function WindowCells({ window: { href, where, first, half, last }, share, ticks }: WindowCellsProps) {
  const days = words.windows.days(dayText(first), dayText(last));
  const name = words.windows.name(where, days, half === null ? "" : dayText(half));
  return (
    <>
      <th scope="row">
        {href ? (
          <a class="press bare" href={href}>
            {where}
          </a>
        ) : (
          where
        )}
      </th>
      <td class="bar">
        <IntervalBar
          rate={half === null ? null : share(half)}
          low={share(first)}
          high={share(last)}
          name={name}
          ticks={ticks}
        />
      </td>
      <td class="r">{days}</td>
    </>
  );
}
