// Families side by side: what was seen as a dot, the interval as a bar, the count beside it.

import { season as words } from "../app/words/season.ts";
import { ownWords } from "../book/own-words.ts";
import type { SeasonReport } from "../state/season-report.ts";
import { standing } from "../state/standing.ts";
import type { Rate } from "../trade/proportions.ts";
import { IntervalBar } from "./parts/interval-bar.tsx";
import { Wide } from "./parts/wide.tsx";
import { familiesTitle, LEAST_P, pText } from "./season-titles.ts";

export function SeasonFamilies({ report }: { report: SeasonReport }) {
  const own = ownWords(standing.value.keeper.words);
  const tests =
    report.p === null
      ? words.noTest(own)
      : words.test(report.p < LEAST_P ? words.tiny : words.p(pText(report.p)));
  const laid = report.families.flatMap(({ name, laying }) =>
    laying ? [words.laid(name, Math.round(laying.hen_day_pct), laying.eggs, laying.hen_days)] : [],
  );
  return (
    <section class="section">
      <h2>{familiesTitle(report) ?? words.families(own)}</h2>
      <Wide label={words.families(own)}>
        <table class="bars">
          <thead>
            <tr>
              <th scope="col">{words.family(own)}</th>
              <th scope="col" class="r">
                {words.set}
              </th>
              <th scope="col" colSpan={2}>
                {words.fertile}
              </th>
              <th scope="col" colSpan={2}>
                {words.hatched}
              </th>
              <th scope="col" class="r">
                {words.alive}
              </th>
            </tr>
          </thead>
          <tbody>
            {report.families.map((family) => (
              <tr key={family.family}>
                <th scope="row">{family.name}</th>
                <td class="r">{family.set}</td>
                <RateCells rate={family.fertility} what={words.fertile} name={family.name} />
                <RateCells rate={family.hatch_of_fertile} what={words.hatched} name={family.name} />
                <td class="r">{ofText(family.alive_7d)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
      <p class="small quiet section-note">
        {words.barNote(own)} {tests}
      </p>
      {laid.length > 0 && <p class="small quiet section-note">{words.laying(laid.join(", "))}</p>}
    </section>
  );
}

interface RateCellsProps {
  readonly rate: Rate;
  readonly what: string;
  readonly name: string;
}

/** Two cells: the bar, and "40 of 44". */
export function RateCells({ rate, what, name }: RateCellsProps) {
  const { k, n, low, high } = rate;
  const told =
    low === null || high === null
      ? `${name}, ${what}: ${words.noRate}`
      : words.rateName(what, name, k, n, Math.round(low * 100), Math.round(high * 100));
  return (
    <>
      <td class="bar">
        <IntervalBar rate={rate.rate} low={low} high={high} name={told} />
      </td>
      <td class="r">{ofText(rate)}</td>
    </>
  );
}

export const ofText = ({ k, n }: Rate) => (n === 0 ? words.noRate : words.count(k, n));
