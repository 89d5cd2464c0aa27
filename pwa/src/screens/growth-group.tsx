// One batch and sex: its means by age, the curve where the weights carry one, and the table behind the drawing.
import { birds as birdWords, bird as oneWords } from "../app/words/birds.ts";
import { growth as words } from "../app/words/weights.ts";
import type { Curve, Group, GrowthReport } from "../state/growth-report.ts";
import { standing } from "../state/standing.ts";
import { type MassUnit, massTyped, massUnit } from "./measures.ts";
import { LineChart, type Mark, ticksBetween } from "./parts/line-chart.tsx";
import { Wide } from "./parts/wide.tsx";
import { birdMassText } from "./scale-words.ts";
import { Section } from "./section.tsx";
import { dateTold, daysEarlier, dayTold } from "./told-day.ts";

/** All weighings of one batch and sex, the earliest first. */
interface Growing {
  readonly key: string;
  readonly name: string;
  readonly days: readonly Group[];
}

export function groupName({ family, sex }: Group): string {
  const sexes: Readonly<Record<string, string>> = oneWords.sexes;
  return words.group(family ?? words.unknownFamily, (sexes[sex] ?? sex).toLowerCase());
}

/** The batch and sex weighed last comes first. */
export function groupsIn({ groups }: GrowthReport): Growing[] {
  const found = new Map<string, Group[]>();
  for (const group of groups) {
    const key = `${group.lot} ${group.sex}`;
    found.set(key, [...(found.get(key) ?? []), group]);
  }
  const groupsFound = [...found].map(([key, list]) => {
    const days = [...list].sort((a, b) => (a.on < b.on ? -1 : 1));
    return { key, name: days[0] ? groupName(days[0]) : key, days };
  });
  const alike = (name: string) => groupsFound.filter((one) => one.name === name).length > 1;
  const named = groupsFound.map((one) => (alike(one.name) ? { ...one, name: hatchedName(one) } : one));
  const latest = ({ days }: Growing) => days.at(-1)?.on ?? "";
  return named.sort((a, b) => (latest(a) < latest(b) ? 1 : latest(a) > latest(b) ? -1 : 0));
}

/** Two hatches of one family are told apart by their days. */
function hatchedName({ name, days }: Growing): string {
  const known = days.find(({ ageDays }) => ageDays !== null);
  return known ? words.hatched(name, dateTold(daysEarlier(known.on, known.ageDays ?? 0))) : name;
}

export function GrowthGroup({ group: { name, days } }: { group: Growing }) {
  const unit = massUnit(standing.value);
  const first = days[0];
  if (!first) return null;
  const { curve, refused } = first;
  const ages = new Set(days.flatMap(({ ageDays }) => ageDays ?? []));
  const drawn = ages.size > 1;
  return (
    <Section title={name}>
      {curve ? (
        <p>
          {words.curve(
            Math.round(curve.inflectionDay),
            birdMassText(curve.parameters.A ?? 0, unit),
            words.models[curve.model] ?? curve.model,
          )}
        </p>
      ) : (
        <p>{words.refused(refused)}</p>
      )}
      {drawn && <Chart name={name} days={days} curve={curve} unit={unit} />}
      {drawn ? (
        <details>
          <summary>
            {words.figures}
            <span class="heard">{`, ${name}`}</span>
          </summary>
          <Days name={name} days={days} />
        </details>
      ) : (
        <Days name={name} days={days} />
      )}
    </Section>
  );
}

function Days({ name, days }: Pick<Growing, "name" | "days">) {
  const unit = massUnit(standing.value);
  return (
    <Wide label={name}>
      <table>
        <thead>
          <tr>
            <th scope="col">{words.table.on}</th>
            {(["age", "n", "mean", "cv", "even"] as const).map((column) => (
              <th key={column} scope="col" class="r">
                {words.table[column]}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {days.map((day) => (
            <tr key={day.on}>
              <th scope="row" class="nowrap">
                {dayTold(day.on)}
              </th>
              <td class="r">{day.ageDays === null ? words.noFigure : birdWords.days(day.ageDays)}</td>
              <td class="r">{day.n}</td>
              <td class="r">{birdMassText(day.meanG, unit)}</td>
              <td class="r">{day.cvPct === null ? words.noFigure : words.percent(day.cvPct)}</td>
              <td class="r">
                {words.percent(day.withinPct)}
                {day.expectedPct !== null && (
                  <span class="quiet">{` ${words.expected(day.expectedPct)}`}</span>
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  );
}

interface ChartProps {
  readonly name: string;
  readonly days: readonly Group[];
  readonly curve: Curve | null;
  readonly unit: MassUnit;
}

/** Of two ages at least. */
function Chart({ name, days, curve, unit }: ChartProps) {
  const seen = days.flatMap(({ ageDays, meanG }): Mark[] =>
    ageDays === null ? [] : [{ x: ageDays, y: inUnit(meanG, unit) }],
  );
  const [from, to] = [seen[0], seen.at(-1)];
  if (!from || !to) return null;
  const drawn = curve ? marksOf(curve, to.x, unit) : [];
  const most = Math.max(...seen.map(({ y }) => y), ...drawn.map(({ y }) => y));
  const tick = (at: number) => ({ at, text: String(at) });
  return (
    <LineChart
      name={words.chart(name, seen.length, typed(days[0], unit), typed(days.at(-1), unit))}
      x={[0, to.x]}
      y={[0, most]}
      xTicks={ticksBetween(0, to.x).map(tick)}
      yTicks={ticksBetween(0, most).map(tick)}
      axes={words.axes(unit)}
      wished={drawn}
      seen={[seen]}
    />
  );
}

const STEPS = 40;

/** The curve from the hatch to the last age weighed: beyond it, it is no more than a guess. */
function marksOf({ model, parameters }: Curve, last: number, unit: MassUnit): Mark[] {
  const { A = 0, m = 0, s = 1, b = 0, k = 0 } = parameters;
  const at = (day: number) =>
    model === "gompertz" ? A * Math.exp(-b * Math.exp(-k * day)) : A / (1 + Math.exp((m - day) / s));
  return Array.from({ length: STEPS + 1 }, (_, i) => {
    const day = (last * i) / STEPS;
    return { x: day, y: inUnit(at(day), unit) };
  });
}

const inUnit = (g: number, unit: MassUnit): number => Number(massTyped(g, unit));
const typed = (group: Group | undefined, unit: MassUnit) => (group ? birdMassText(group.meanG, unit) : "");
