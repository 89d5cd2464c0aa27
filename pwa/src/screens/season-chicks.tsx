// At what age the season's chicks were lost: counts, and the rate of each age with its interval.
import { season as words } from "../app/words/season.ts";
import type { SeasonReport } from "../state/season-report.ts";
import { RateCells } from "./season-families.tsx";
import { SeasonTable } from "./season-table.tsx";
import { chicksTitle } from "./season-titles.ts";

export function SeasonChicks({ report }: { report: SeasonReport }) {
  if (report.chick_losses.length === 0) return null;
  const { age, lost, died, missing, culled, ages } = words.chicks;
  const title = chicksTitle(report);
  return (
    <SeasonTable title={title}>
      <thead>
        <tr>
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
      </thead>
      <tbody>
        {report.chick_losses.map((row) => (
          <tr key={row.from_days}>
            <th scope="row">{ages(row.from_days, row.to_days)}</th>
            <td class="r">{row.died}</td>
            <td class="r">{row.missing}</td>
            <td class="r">{row.culled}</td>
            <RateCells rate={row.lost} what={lost} name={ages(row.from_days, row.to_days)} />
          </tr>
        ))}
      </tbody>
    </SeasonTable>
  );
}
