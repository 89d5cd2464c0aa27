// The first pip and the first chick beside what this holding's other hatches showed, and what is usual.
import { hatchEarlier as words } from "../app/words/hatch-earlier.ts";
import { earlierHatches, type FirstSeen, firstSeen, spreadOf } from "../book/earlier-hatches.ts";
import { standing } from "../state/standing.ts";
import { PIP_TO_OUT_H, WATERFOWL_PIP_TO_OUT_H } from "../trade/hatch-hours.ts";
import { sourceTitle } from "../trade/sources.ts";
import { speciesNamed } from "../trade/species.ts";
import { familyName, placeName } from "./names.ts";
import { Why } from "./parts/why.tsx";
import { Wide } from "./parts/wide.tsx";
import { Section } from "./section.tsx";
import type { SettingView } from "./setting-view.ts";
import { monthWords } from "./told-time.ts";

const dayTold = (days: number | null) => (days === null ? words.notSeen : days.toFixed(1));

export function HatchEarlier({ view }: { view: SettingView }) {
  const totals = standing.value;
  const { setting } = view;
  const species = speciesNamed(setting.species);
  const others = earlierHatches(totals, setting);
  const own = firstSeen(totals, setting);
  const [low, high] = PIP_TO_OUT_H.value;
  return (
    <Section title={words.title}>
      <Spread what={words.pip} own={own.pipDays} others={others.map((one) => one.pipDays)} />
      <Spread what={words.out} own={own.outDays} others={others.map((one) => one.outDays)} />
      {others.length === 0 && <p class="quiet">{words.none}</p>}
      {species && (
        <p>
          {words.usual(
            species.periodDays[0],
            (species.periodDays[0] - high / 24).toFixed(1),
            String(low),
            String(high),
          )}
        </p>
      )}
      <Why
        about={words.title}
        formula={words.formula(WATERFOWL_PIP_TO_OUT_H.value)}
        sources={[
          { title: words.period },
          { title: sourceTitle(PIP_TO_OUT_H.source) ?? PIP_TO_OUT_H.source, status: PIP_TO_OUT_H.status },
        ]}
      />
      {others.length > 0 && <Table rows={others} />}
    </Section>
  );
}

interface SpreadProps {
  readonly what: string;
  readonly own: number | null;
  readonly others: readonly (number | null)[];
}

/** "First pip: day 20.1; in 3 other hatches here day 19.8 to 20.4, the middle one 20.0." */
function Spread({ what, own, others }: SpreadProps) {
  const spread = spreadOf(others);
  if (own === null && spread === null) return null;
  const n = others.filter((one) => one !== null).length;
  const [low, middle, high] = (spread ?? []).map((day) => day.toFixed(1));
  return (
    <p>
      <b>{own === null ? words.notYet(what) : words.own(what, own.toFixed(1))}</b>{" "}
      {spread && (n === 1 ? words.otherOne(low ?? "") : words.others(n, low ?? "", high ?? "", middle ?? ""))}
    </p>
  );
}

function Table({ rows }: { rows: readonly FirstSeen[] }) {
  const totals = standing.value;
  const { zone } = totals.keeper;
  return (
    <details>
      <summary>{words.table}</summary>
      <Wide label={words.table}>
        <table>
          <thead>
            <tr>
              <th scope="col">{words.columns.hatch}</th>
              <th scope="col" class="r">
                {words.columns.pip}
              </th>
              <th scope="col" class="r">
                {words.columns.out}
              </th>
            </tr>
          </thead>
          <tbody>
            {rows.map(({ setting, pipDays, outDays, families }) => (
              <tr key={setting.id}>
                <th scope="row">
                  <a class="press bare" href={`/setting/${setting.id}/hatching`}>
                    {words.row(placeName(totals, setting.place), monthWords(setting.setAtMs, zone))}
                  </a>
                  {families.length > 0 && (
                    <span class="quiet small">
                      {words.also(families.map((family) => familyName(totals, family)).sort())}
                    </span>
                  )}
                </th>
                <td class="r">{dayTold(pipDays)}</td>
                <td class="r">{dayTold(outDays)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
    </details>
  );
}
