// The same eggs by age when set, by machine and by month: figures and bars, no verdict.
import { season as words } from "../app/words/season.ts";
import type { SeasonGroup, SeasonReport } from "../state/season-report.ts";
import { Wide } from "./parts/wide.tsx";
import { RateCells } from "./season-families.tsx";

const GROUPS = ["by_egg_age", "by_place", "by_month"] as const;

export function SeasonGroups({ report }: { report: SeasonReport }) {
  return (
    <>
      {GROUPS.filter((group) => tells(report[group])).map((group) => (
        <section class="section" key={group}>
          <h2>{words.groups[group]}</h2>
          <Wide label={words.groups[group]}>
            <table class="bars">
              <thead>
                <tr>
                  <th scope="col">{words.group[group]}</th>
                  <th scope="col" class="r">
                    {words.set}
                  </th>
                  <th scope="col" colSpan={2}>
                    {words.fertile}
                  </th>
                  <th scope="col" colSpan={2}>
                    {words.hatched}
                  </th>
                </tr>
              </thead>
              <tbody>
                {report[group].map((row) => (
                  <tr key={row.key}>
                    <th scope="row">{keyText(group, row.key)}</th>
                    <td class="r">{row.set}</td>
                    <RateCells rate={row.fertility} what={words.fertile} name={keyText(group, row.key)} />
                    <RateCells
                      rate={row.hatch_of_fertile}
                      what={words.hatched}
                      name={keyText(group, row.key)}
                    />
                  </tr>
                ))}
              </tbody>
            </table>
          </Wide>
        </section>
      ))}
    </>
  );
}

/** One group alone says nothing that the page has not said. */
const tells = (rows: readonly SeasonGroup[]) => rows.length > 1;

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
