// The comparison behind the verdict: the rates drawn in towards the flock, and the pairs.

import { season as words } from "../app/words/season.ts";
import { ownWords } from "../book/own-words.ts";
import type { SeasonReport } from "../state/season-report.ts";
import { standing } from "../state/standing.ts";
import { Wide } from "./parts/wide.tsx";
import { isOver } from "./season-families.tsx";
import { AxisRow, RateCells } from "./season-rates.tsx";

export function SeasonCompared({ report }: { report: SeasonReport }) {
  const compared = report.families.filter(isOver);
  if (compared.length === 0) return null;
  const own = ownWords(standing.value.keeper.words);
  const names = new Map(report.families.map((family) => [family.family, family.name]));
  return (
    <section class="section">
      <h2>{report.titles.compared}</h2>
      <Wide label={words.hatchOfSet}>
        <table class="bars">
          <thead>
            <tr class="two-heads">
              <th scope="col">{words.family(own)}</th>
              <th scope="col" colSpan={2}>
                {words.hatchOfSet}
              </th>
              <th scope="col">{words.shrunk}</th>
              <th scope="col" class="r">
                {words.best}
              </th>
            </tr>
            <AxisRow columns={[1, null, 3]} />
          </thead>
          <tbody>
            {compared.map(({ family, label, hatch_of_set: rate, shrunk, best_probability }) => (
              <tr key={family}>
                <th scope="row">{label}</th>
                <RateCells rate={rate} what={words.hatchOfSet} name={label} />
                <td class="nowrap">
                  {shrunk.rate === null ? words.noRate : words.range(shrunk.rate, shrunk.low, shrunk.high)}
                </td>
                <td class="r">
                  {best_probability === null ? words.noRate : words.percent(best_probability)}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
      {report.pairs.length > 0 && (
        <details>
          <summary>{words.pairs}</summary>
          <Wide label={words.pairs}>
            <table>
              <thead>
                <tr>
                  <th scope="col">{words.pairOf(own)}</th>
                  <th scope="col" class="r">
                    {words.difference}
                  </th>
                  <th scope="col" class="r">
                    {words.between}
                  </th>
                  <th scope="col" class="r">
                    {words.pHead}
                  </th>
                </tr>
              </thead>
              <tbody>
                {report.pairs.map((pair) => (
                  <tr key={`${pair.a} ${pair.b}`}>
                    <th scope="row">{words.pairNames(names.get(pair.a) ?? "", names.get(pair.b) ?? "")}</th>
                    <td class="r">{words.points(pair.difference)}</td>
                    <td class="r">{words.pointsBetween(pair.low, pair.high)}</td>
                    <td class="r">{pair.p_holm === null ? words.noRate : pText(pair.p_holm)}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </Wide>
        </details>
      )}
      <details>
        <summary>{words.how}</summary>
        <p class="quiet">{words.howText(own)}</p>
      </details>
    </section>
  );
}

const LEAST_P = 0.001;

/** "0.03", or "under 0.001" where the digits would only pretend. */
function pText(p: number): string {
  if (p < LEAST_P) return words.tiny;
  return p < 0.1 ? p.toPrecision(2) : p.toFixed(2);
}
