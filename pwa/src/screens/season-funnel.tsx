// Where the eggs went, from set to kept: one bar for each step, its number beside it.
import { season as words } from "../app/words/season.ts";
import type { SeasonReport } from "../state/season-report.ts";

export function SeasonFunnel({ report }: { report: SeasonReport }) {
  const steps = report.funnel;
  const all = steps[0]?.n ?? 0;
  if (all === 0) return null;
  const untold = steps.find((one) => one.step === "alive")?.notWritten ?? 0;
  const running = steps[0]?.running ?? 0;
  return (
    <section class="section">
      <h2>{report.titles.funnel}</h2>
      <table class="funnel">
        <tbody>
          {steps.map((step) => (
            <tr key={step.step}>
              <th scope="row">{words.funnelSteps[step.step] ?? step.step}</th>
              <td>
                <span class="length">
                  <svg style={{ width: `calc((100% - 9rem) * ${step.n / all})` }} aria-hidden="true">
                    <rect width="100%" height="100%" />
                  </svg>
                  <span class="n">
                    <b>{step.n}</b> <span class="quiet">{step.away}</span>
                  </span>
                </span>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {untold > 0 && <p class="small quiet section-note">{words.funnelUntold(untold)}</p>}
      {running > 0 && <p class="small quiet section-note">{words.funnelRunning(running)}</p>}
    </section>
  );
}
