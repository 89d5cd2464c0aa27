// When each family's eggs died in the shell, in settings that are over, and what the sums are short of.

import { season as words } from "../app/words/season.ts";
import { ownWords } from "../book/own-words.ts";
import type { SeasonReport } from "../state/season-report.ts";
import { standing } from "../state/standing.ts";
import { Wide } from "./parts/wide.tsx";
import { isOver } from "./season-families.tsx";

const DEATHS = Object.entries(words.deaths);

export function SeasonLosses({ report }: { report: SeasonReport }) {
  const { families } = report;
  const over = families.filter(isOver);
  const short = over.filter(({ closing }) => closing !== null);
  if (over.length === 0) return null;
  const own = ownWords(standing.value.keeper.words);
  return (
    <section class="section">
      <h2>{report.titles.losses}</h2>
      <p class="quiet small">{words.losses(own)}</p>
      <Wide label={words.losses(own)}>
        <table>
          <thead>
            <tr>
              <th scope="col">{words.family(own)}</th>
              {DEATHS.map(([code, told]) => (
                <th scope="col" class="r" key={code}>
                  {told}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {over.map(({ family, label, deaths }) => (
              <tr key={family}>
                <th scope="row">{label}</th>
                {DEATHS.map(([code]) => (
                  <td class="r" key={code}>
                    {deaths[code] ?? 0}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
      {short.map(({ family, name, closing }) => (
        <p class="section-note" key={family}>
          {words.short(name, closing ?? "")}
        </p>
      ))}
    </section>
  );
}
