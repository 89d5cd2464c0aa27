// The windows of a season's hatches over one axis of days, with what is usual, and the figures beside.
import { season as words } from "../app/words/season.ts";
import type { SeasonReport } from "../state/season-report.ts";
import { IntervalBar } from "./parts/interval-bar.tsx";
import { Wide } from "./parts/wide.tsx";
import { dayText, hatchesTitle } from "./season-titles.ts";
import { dateTold } from "./told-day.ts";

interface Window {
  readonly href?: string;
  readonly where: string;
  readonly first: number;
  readonly half: number | null;
  readonly last: number;
}

export function SeasonHatches({ report }: { report: SeasonReport }) {
  if (report.hatches.length === 0) return null;
  const seen = report.hatches.map(
    ({ setting, set_on, place, first_h, median_h, last_h }): Window => ({
      href: `/setting/${setting}`,
      where: `${dateTold(set_on)}, ${place}`,
      first: first_h,
      half: median_h,
      last: last_h,
    }),
  );
  const spans = new Map(
    report.hatches.flatMap(({ usual_h }) => (usual_h ? [[usual_h.join(), usual_h] as const] : [])),
  );
  const usual = [...spans.values()].map(
    ([first, last]): Window => ({ where: words.windows.usual, first, half: null, last }),
  );
  const all = [...seen, ...usual];
  const [low, high] = [Math.min(...all.map((one) => one.first)), Math.max(...all.map((one) => one.last))];
  const share = (hours: number) => (hours - low) / (high - low || 1);
  return (
    <section class="section">
      <h2>{hatchesTitle(report)}</h2>
      <Wide label={words.titles.noWindows}>
        <table class="bars">
          <thead>
            <tr>
              <th scope="col">{words.windows.hatch}</th>
              <th scope="col" colSpan={2}>
                {words.windows.out}
              </th>
            </tr>
          </thead>
          <tbody>
            {all.map(({ href, where, first, half, last }) => {
              const days = words.windows.days(dayText(first), dayText(last));
              const told = words.windows.name(where, days, half === null ? "" : dayText(half));
              return (
                <tr key={told}>
                  <th scope="row">
                    {href ? (
                      <a class="press bare" href={href}>
                        {where}
                      </a>
                    ) : (
                      where
                    )}
                  </th>
                  <td class="bar">
                    <IntervalBar
                      rate={half === null ? null : share(half)}
                      low={share(first)}
                      high={share(last)}
                      name={told}
                    />
                  </td>
                  <td class="r">{days}</td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </Wide>
      <p class="small quiet section-note">{words.windows.note}</p>
    </section>
  );
}
