// Which family's cocks go where this year and next, and what inbreeding is to be expected over the generations.
import { pairing as words } from "../app/words/pairing.ts";
import type { Rotation } from "../state/pairing-report.ts";
import { LineChart, type Mark, ticksBetween } from "./parts/line-chart.tsx";
import { Wide } from "./parts/wide.tsx";

const TOLD = [1, 5, 10, 15, 20];
const told = (share: number | undefined) => (share === undefined ? "" : (100 * share).toFixed(1));

export function PairingMoves({ rotation }: { rotation: Rotation }) {
  const { curve, oneFlock, closed, rolling } = rotation;
  const tenth = curve[9];
  const closedTenth = closed[9];
  const lines = [
    { name: words.lines.circle, values: curve },
    { name: words.lines.flock, values: oneFlock },
    { name: words.lines.closed, values: closed },
    { name: words.lines.rolling, values: rolling },
  ].filter((line) => line.values.length > 0);
  const most = Math.max(0.05, ...lines.flatMap((line) => line.values));
  const marks = (values: readonly number[]): Mark[] => values.map((y, i) => ({ x: i + 1, y: 100 * y }));
  return (
    <section class="section">
      <h2>{words.moves}</h2>
      {rotation.moves.length > 0 && (
        <ul class="rows">
          {rotation.moves.map((move) => (
            <li key={move}>{move}</li>
          ))}
        </ul>
      )}
      <p>{rotation.words}</p>
      {rotation.oneEach && <p>{rotation.oneEach}</p>}
      {rotation.nextYear.length > 0 && rotation.nextYear.join() !== rotation.moves.join() && (
        <details>
          <summary>{words.movesNext}</summary>
          <ul class="rows">
            {rotation.nextYear.map((move) => (
              <li key={move}>{move}</li>
            ))}
          </ul>
        </details>
      )}
      {tenth !== undefined && closedTenth !== undefined && (
        <>
          <h3 class="section">{words.curveFinding(tenth, closedTenth)}</h3>
          <LineChart
            name={words.curveFinding(tenth, closedTenth)}
            x={[0, 20]}
            y={[0, 100 * most]}
            xTicks={[5, 10, 15, 20].map((at) => ({ at, text: String(at) }))}
            yTicks={ticksBetween(0, 100 * most).map((at) => ({ at, text: `${at} %` }))}
            axes={words.curveAxes}
            seen={[marks(curve)]}
            wished={marks(closed)}
            ahead={marks(rolling)}
          />
          <Wide label={words.curve}>
            <table>
              <thead>
                <tr>
                  <th scope="col">{words.generation}</th>
                  {lines.map((line) => (
                    <th scope="col" class="r" key={line.name}>
                      {line.name}
                    </th>
                  ))}
                </tr>
              </thead>
              <tbody>
                {TOLD.map((n) => (
                  <tr key={n}>
                    <th scope="row">{n}</th>
                    {lines.map((line) => (
                      <td class="r" key={line.name}>
                        {told(line.values[n - 1])}
                      </td>
                    ))}
                  </tr>
                ))}
              </tbody>
            </table>
          </Wide>
        </>
      )}
    </section>
  );
}
