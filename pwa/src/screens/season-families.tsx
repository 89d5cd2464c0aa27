// Families side by side: what was seen as a dot, the interval as a bar, the figures beside it.

import { season as words } from "../app/words/season.ts";
import { ownWords } from "../book/own-words.ts";
import type { SeasonFamily, SeasonReport } from "../state/season-report.ts";
import { standing } from "../state/standing.ts";
import { RateCells, RateHeads } from "./season-rates.tsx";
import { SeasonTable } from "./season-table.tsx";

export function SeasonFamilies({ report }: { report: SeasonReport }) {
  const own = ownWords(standing.value.keeper.words);
  const laid = report.families.flatMap(({ name, laying }) =>
    laying ? [words.laid(name, Math.round(laying.hen_day_pct), laying.eggs, laying.hen_days)] : [],
  );
  const notes = [words.barNote(own), report.unset, laid.length > 0 && words.laying(laid.join(", "))];
  return (
    <SeasonTable title={report.titles.families} notes={notes}>
      <RateHeads of={words.family(own)} bars={[words.fertile, words.hatched]} last={words.alive} />
      <tbody>
        {report.families.map((family) => (
          <tr key={family.family}>
            <th scope="row">{family.label}</th>
            <td class="r">{family.set}</td>
            {isOver(family) ? (
              <>
                <RateCells rate={family.fertility} what={words.fertile} name={family.name} />
                <RateCells rate={family.hatch_of_fertile} what={words.hatched} name={family.name} />
                <td class="r">
                  {family.alive_7d.n === 0 ? words.noRate : words.count(family.alive_7d.k, family.alive_7d.n)}
                </td>
              </>
            ) : (
              <td class="quiet" colSpan={5}>
                {family.running > 0 ? words.inMachine : words.noRate}
              </td>
            )}
          </tr>
        ))}
      </tbody>
    </SeasonTable>
  );
}

/** Whether any of its eggs can be judged: a row of noughts would read as failure. */
export const isOver = (family: SeasonFamily): boolean => family.hatch_of_set.n > 0;
