// What came out at each look, batch by batch, and the curve of it.

import { hatching as words } from "../app/words/hatching.ts";
import type { HatchLook, HatchSoFar } from "../book/hatch-looks.ts";
import { standing } from "../state/standing.ts";
import { batchNames, unknownFamily } from "./names.ts";
import { LineChart, type Mark, ticksBetween } from "./parts/line-chart.tsx";
import { Wide } from "./parts/wide.tsx";
import type { SettingView } from "./setting-view.ts";
import { clock, dayWords } from "./told-time.ts";

const HOUR_MS = 3_600_000;

export function HatchLooks({ view, sofar }: { view: SettingView; sofar: HatchSoFar }) {
  const { zone } = standing.value.keeper;
  const names = batchNames(standing.value, view.batches);
  const when = (look: HatchLook) => `${dayWords(look.atMs, zone)}, ${clock(look.atMs, zone)}`;
  if (sofar.looks.length === 0) return null;
  const told = (look: HatchLook) => {
    const parts = [
      ...view.batches.flatMap(({ id }) => {
        const n = look.byLot.get(id) ?? 0;
        return n > 0 ? [`${names.get(id)} ${n}`] : [];
      }),
      ...(look.unknown > 0 ? [`${unknownFamily(standing.value)} ${look.unknown}`] : []),
      ...(look.weak > 0 ? [words.weak(look.weak)] : []),
      ...(look.helped > 0 ? [words.helped(look.helped)] : []),
      ...(look.pipped > 0 ? [words.pippedNow(look.pipped)] : []),
    ];
    return parts.length > 0 ? parts.join(", ") : words.noneNew;
  };
  return (
    <>
      <Curve view={view} sofar={sofar} when={when} />
      <section class="section">
        <h2>{words.looks}</h2>
        <ul class="rows">
          {[...sofar.looks].reverse().map((look) => (
            <li key={look.fromMs}>
              <div class="head">
                <b>{when(look)}</b>
                <span class="quiet">{look.out > 0 ? words.lookTotal(look.out) : ""}</span>
              </div>
              <p>{told(look)}</p>
            </li>
          ))}
        </ul>
      </section>
    </>
  );
}

interface CurveProps {
  readonly view: SettingView;
  readonly sofar: HatchSoFar;
  readonly when: (look: HatchLook) => string;
}

function Curve({ view, sofar, when }: CurveProps) {
  const { firstOutMs, lastOutMs, looks } = sofar;
  if (firstOutMs === null || lastOutMs === null) return null;
  const from = looks.findIndex((look) => look.out > 0);
  const steps = [{ x: 0, y: 0 }];
  let out = 0;
  const rows = looks.slice(from).map((look) => {
    out += look.out;
    const x = (look.atMs - firstOutMs) / HOUR_MS;
    steps.push({ x, y: out } satisfies Mark);
    return { look, out };
  });
  const hours = Math.max(...steps.map((step) => step.x));
  const end = Math.max(24, Math.ceil(hours / 12) * 12);
  const eggs = Math.max(out, view.inShell + view.hatched);
  const spread = Math.round((lastOutMs - firstOutMs) / HOUR_MS);
  const title = spread > 0 ? words.curve.title(out, eggs, spread) : words.curve.one(out, eggs);
  return (
    <section class="section">
      <h2>{title}</h2>
      <LineChart
        name={words.curve.name(rows.map((row) => `${when(row.look)} ${row.out}`).join("; "))}
        x={[0, end]}
        y={[0, Math.max(1, eggs) * 1.08]}
        xTicks={ticksBetween(0, end, 4).map((at) => ({ at, text: String(at) }))}
        yTicks={ticksBetween(0, Math.max(1, eggs), 4)
          .filter(Number.isInteger)
          .map((at) => ({ at, text: String(at) }))}
        axes={words.curve.axis}
        seen={[steps]}
        steps
      />
      <p class="quiet small">{words.curve.note}</p>
      <details>
        <summary>{words.curve.table}</summary>
        <Wide label={words.curve.table}>
          <table>
            <thead>
              <tr>
                <th scope="col">{words.curve.columns.when}</th>
                <th scope="col" class="r">
                  {words.curve.columns.out}
                </th>
                <th scope="col" class="r">
                  {words.curve.columns.of}
                </th>
              </tr>
            </thead>
            <tbody>
              {rows.map(({ look, out: sum }) => (
                <tr key={look.fromMs}>
                  <th scope="row">{when(look)}</th>
                  <td class="r">{look.out}</td>
                  <td class="r">{sum}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </Wide>
      </details>
    </section>
  );
}
