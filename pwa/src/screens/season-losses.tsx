// When each family's eggs died in the shell, in settings that are over, and what the sums are short of.

import { season as words } from "../app/words/season.ts";
import { ownWords } from "../book/own-words.ts";
import type { SeasonReport } from "../state/season-report.ts";
import { standing } from "../state/standing.ts";
import { Wide } from "./parts/wide.tsx";
import { lossesTitle } from "./season-titles.ts";

const DEATHS = Object.entries(words.deaths);

export function SeasonLosses({ report }: { report: SeasonReport }) {
  const { families } = report;
  const lost = families.filter(({ deaths }) => Object.values(deaths).some((n) => n > 0));
  const short = families.filter(({ closing }) => closing !== null);
  if (lost.length === 0 && short.length === 0) return null;
  const own = ownWords(standing.value.keeper.words);
  return (
    <section class="section">
      <h2>{lossesTitle(report)}</h2>
      <p class="quiet small">{words.losses(own)}</p>
      {lost.length > 0 && (
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
              {lost.map(({ family, name, deaths }) => (
                <tr key={family}>
                  <th scope="row">{name}</th>
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
      )}
      {short.map(({ family, name, closing }) => (
        <p class="section-note" key={family}>
          {words.short(name, closing ?? "")}
        </p>
      ))}
    </section>
  );
}
