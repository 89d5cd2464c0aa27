// The same eggs by age when set, by machine and by month, in one table: figures and bars, no verdict.
import { season as words } from "../app/words/season.ts";
import type { SeasonReport } from "../state/season-report.ts";
import { RateCells, RateHeads } from "./season-rates.tsx";
import { SeasonTable } from "./season-table.tsx";

const GROUPS = ["by_egg_age", "by_place", "by_month"] as const;

export function SeasonGroups({ report }: { report: SeasonReport }) {
  const shown = GROUPS.filter((group) => report[group].length > 0);
  if (shown.length === 0) return null;
  return (
    <SeasonTable title={report.titles.groups}>
      <RateHeads bars={[words.fertile, words.hatchOfSet]} />
      {shown.map((group) => (
        <tbody key={group}>
          <tr>
            <th scope="rowgroup" colSpan={6} class="group">
              {words.groups[group]}
            </th>
          </tr>
          {report[group].map((row) => (
            <tr key={row.key}>
              <th scope="row">{keyText(group, row.key)}</th>
              <td class="r">{row.set}</td>
              <RateCells rate={row.fertility} what={words.fertile} name={keyText(group, row.key)} />
              <RateCells rate={row.hatch_of_set} what={words.hatchOfSet} name={keyText(group, row.key)} />
            </tr>
          ))}
        </tbody>
      ))}
    </SeasonTable>
  );
}

function keyText(group: (typeof GROUPS)[number], key: string): string {
  if (group === "by_month") return monthText(key);
  if (group === "by_place") return key;
  const [from, to] = key.split("-");
  return from ? words.ages(from, to ?? "") : words.ageUnknown;
}

function monthText(key: string): string {
  const at = new Date(`${key}-15T12:00:00Z`);
  return Number.isNaN(at.getTime())
    ? key
    : at.toLocaleDateString(undefined, { month: "long", year: "numeric" });
}
