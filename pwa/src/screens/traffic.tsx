// Comings, goings, deaths and treatments of a year: what an inspector may ask for, shown or printed at the gate.
import { useMemo, useState } from "preact/hooks";
import { eggs } from "../app/words/everywhere.ts";
import { causeWords } from "../app/words/losses.ts";
import { papers } from "../app/words/papers.ts";
import { traffic as words } from "../app/words/treating.ts";
import { birdId, birdsOf } from "../book/birds.ts";
import { heldMs } from "../book/moments.ts";
import { type Passage, trafficOf } from "../book/traffic.ts";
import { standing } from "../state/standing.ts";
import { KEPT } from "../trade/movements.ts";
import { sourceTitle } from "../trade/sources.ts";
import { familyName, placeName } from "./names.ts";
import { useNow } from "./now.ts";
import { OrderNotice } from "./order-notice.tsx";
import { Page } from "./page.tsx";
import { PaperLinks } from "./paper-links.tsx";
import { Press } from "./parts/press.tsx";
import { SelectField } from "./parts/select-field.tsx";
import { Wide } from "./parts/wide.tsx";
import { dayTold } from "./told-day.ts";
import { dayKey } from "./told-time.ts";

const FILTERS = ["all", "moves", "deaths", "treated"] as const;
type Filter = (typeof FILTERS)[number];

const SHOWN: Readonly<Record<Filter, readonly Passage["way"][]>> = {
  all: ["came", "left", "died", "culled", "missing", "treated", "eggs_came", "eggs_left"],
  moves: ["came", "left", "eggs_came", "eggs_left"],
  deaths: ["died", "culled", "missing"],
  treated: ["treated"],
};

export function TrafficScreen() {
  const totals = standing.value;
  const today = dayKey(useNow(), totals.keeper.zone);
  const current = Number(today.slice(0, 4));
  const [year, setYear] = useState(current);
  const [filter, setFilter] = useState<Filter>("all");
  const all = useMemo(() => trafficOf(totals, (atMs) => dayKey(heldMs(atMs), totals.keeper.zone)), [totals]);
  const ofYear = all.filter(({ on }) => Number(on.slice(0, 4)) === year);
  const shown = ofYear.filter(({ way }) => SHOWN[filter].includes(way));
  const sum = (...ways: Passage["way"][]) =>
    ofYear.reduce((n, one) => n + (ways.includes(one.way) ? (one.n ?? 0) : 0), 0);
  const years = (
    <div class="acts no-print">
      <Press kind="plain" name={words.year(year - 1)} onPress={() => setYear(year - 1)}>
        {year - 1}
      </Press>
      {year < current && (
        <Press kind="plain" name={words.year(year + 1)} onPress={() => setYear(year + 1)}>
          {year + 1}
        </Press>
      )}
      <Press kind="plain" onPress={() => window.print()}>
        {words.print}
      </Press>
    </div>
  );
  return (
    <Page
      over={words.over(year)}
      headline={
        ofYear.length === 0
          ? words.title.none(year)
          : words.title.some(sum("came"), sum("left"), sum("died", "culled"), sum("missing"))
      }
      under={words.under}
      beside={years}
      wide
    >
      <OrderNotice today={today} />
      <div class="no-print">
        <SelectField
          label={words.show}
          value={filter}
          options={FILTERS.map((value) => ({ value, text: words.filters[value] }))}
          onChoose={(value) => setFilter(FILTERS.find((one) => one === value) ?? "all")}
        />
      </div>
      {shown.length === 0 ? <p class="quiet section-note">{words.nothing}</p> : <Passages list={shown} />}
      <PaperLinks
        of={String(year)}
        links={[
          {
            path: `papers/inspection.pdf?from=${year}-01-01&until=${year === current ? today : `${year}-12-31`}`,
            what: papers.inspector,
          },
        ]}
      />
      <details>
        <summary>{words.keep}</summary>
        <ul class="rows">
          {KEPT.map(({ value, unit, source }) => (
            <li key={unit}>
              {words.kept(value, unit)} <span class="quiet">{sourceTitle(source) ?? source}</span>
            </li>
          ))}
        </ul>
        <p class="quiet">{words.ask}</p>
      </details>
    </Page>
  );
}

function Passages({ list }: { list: readonly Passage[] }) {
  const totals = standing.value;
  const birds = birdsOf(totals, null);
  const who = ({ bird, lot, family, place, n, way }: Passage): string => {
    const named = bird ? birds.get(birdId(totals, bird))?.label : undefined;
    const owner = family ? familyName(totals, totals.rootOf.get(family) ?? family) : "";
    const home = place ? placeName(totals, totals.rootOf.get(place) ?? place) : "";
    const count = n === null ? "" : way.startsWith("eggs") ? eggs(n) : bird ? "" : words.young(n);
    const batch = lot && !owner ? familyName(totals, totals.lots.get(lot)?.family) : owner;
    return [named, count, batch, home].filter(Boolean).join(", ");
  };
  return (
    <Wide label={words.filters.all}>
      <table>
        <thead>
          <tr>
            {(["day", "what", "who"] as const).map((column) => (
              <th key={column} scope="col">
                {words.columns[column]}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {list.map((one) => (
            <tr key={`${one.entry} ${one.lot} ${one.way}`}>
              <th scope="row" class="nowrap">
                {dayTold(one.on)}
              </th>
              <td>{[words.ways[one.way], words.hows[one.how]].filter(Boolean).join(", ")}</td>
              <td>
                {who(one)}
                {one.who && <p class="quiet small">{words.whom[one.way]?.(one.who) ?? one.who}</p>}
                {one.more && <p class="quiet small">{causeWords(one.more)}</p>}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  );
}
