// The season beside those before it: all families together with the interval, and each family's count.
import { season as words } from "../app/words/season.ts";
import type { SeasonReport } from "../state/season-report.ts";
import { ofText, RateCells } from "./season-families.tsx";
import { SeasonTable } from "./season-table.tsx";
import { earlierTitle } from "./season-titles.ts";

export function SeasonEarlier({ report }: { report: SeasonReport }) {
  if (report.earlier.length === 0) return null;
  const names = report.families.filter(({ family }) =>
    report.earlier.some((one) => one.families.has(family)),
  );
  const title = earlierTitle(report);
  return (
    <SeasonTable title={title}>
      <thead>
        <tr>
          <th scope="col">{words.season}</th>
          <th scope="col" class="r">
            {words.set}
          </th>
          <th scope="col" colSpan={2}>
            {words.hatchOfSet}
          </th>
          {names.map(({ family, name }) => (
            <th scope="col" class="r" key={family}>
              {name}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {report.earlier.map((row) => (
          <tr key={row.year}>
            <th scope="row">{row.year}</th>
            <td class="r">{row.set}</td>
            <RateCells rate={row.hatch_of_set} what={words.hatchOfSet} name={String(row.year)} />
            {names.map(({ family }) => {
              const rate = row.families.get(family);
              return (
                <td class="r" key={family}>
                  {rate ? ofText(rate) : ""}
                </td>
              );
            })}
          </tr>
        ))}
      </tbody>
    </SeasonTable>
  );
}
