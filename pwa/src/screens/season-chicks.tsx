// At what age the season's chicks were lost: counts, and the rate of each age with its interval.
import { season as words } from "../app/words/season.ts";
import type { SeasonReport } from "../state/season-report.ts";
import { AxisRow, RateCells } from "./season-rates.tsx";
import { SeasonTable } from "./season-table.tsx";

export function SeasonChicks({ report }: { report: SeasonReport }) {
  if (report.chick_losses.length === 0) return null;
  const { age, lost, died, missing, culled, ages, days } = words.chicks;
  const most = report.chick_scale;
  return (
    <SeasonTable title={report.titles.chicks}>
      <thead>
        <tr class="two-heads">
          <th scope="col">{age}</th>
          {[died, missing, culled].map((how) => (
            <th scope="col" class="r" key={how}>
              {how}
            </th>
          ))}
          <th scope="col" colSpan={2}>
            {lost}
          </th>
        </tr>
        <AxisRow columns={[4, null, 1]} most={most} />
      </thead>
      <tbody>
        {report.chick_losses.map((row) => (
          <tr key={row.from_days}>
            <th scope="row">{ages(row.from_days, row.to_days)}</th>
            <td class="r">{row.died}</td>
            <td class="r">{row.missing}</td>
            <td class="r">{row.culled}</td>
            <RateCells rate={row.lost} what={lost} name={days(row.from_days, row.to_days)} most={most} />
          </tr>
        ))}
      </tbody>
    </SeasonTable>
  );
}
