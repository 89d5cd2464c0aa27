// A later look at marks: webs after two weeks, rings every week. What was found closed or changed is written with it.
import { useState } from "preact/hooks";
import { everywhere } from "../app/words/everywhere.ts";
import { tagInWords, websInWords, marks as words } from "../app/words/marks.ts";
import { regionOf, termsOf } from "../app/words/region.ts";
import { placeOfChicks } from "../book/chores-marks.ts";
import { ownWords } from "../book/own-words.ts";
import { taskDone } from "../state/holding.ts";
import { ringsChanged, websOpen, websPunchedAgain } from "../state/marking.ts";
import { standing } from "../state/standing.ts";
import { patternKey } from "../trade/marks.ts";
import { type RingsWorn, ringsWornBy, type WebsWorn, websWorn } from "./mark-again-view.ts";
import { type MarkView, markView, whoseWords } from "./mark-view.ts";
import { markInWords } from "./marks-worn.tsx";
import { placeName } from "./names.ts";
import { useNow } from "./now.ts";
import { Page } from "./page.tsx";
import { Press } from "./parts/press.tsx";
import { Stepper } from "./parts/stepper.tsx";
import { dayKey, dayWords } from "./told-time.ts";

export function MarkAgainScreen({ id }: { id: string }) {
  const totals = standing.value;
  const view = markView(totals, id);
  if (view === null || view.lot === null) return <Page headline={words.gone} under={words.goneRemedy} />;
  const ring = termsOf(regionOf(totals.keeper.region)).ring;
  const patterns = websWorn(view);
  const rings = ringsWornBy(view);
  return (
    <Page
      over={words.over(placeName(totals, view.place))}
      headline={words.again.title(view.named)}
      under={patterns.length > 0 ? words.again.under(ownWords(totals.keeper.words)) : null}
    >
      {patterns.length + rings.length === 0 && <p class="section-note">{words.again.nothing}</p>}
      {patterns.length > 0 && <Webs view={view} lot={view.lot.id} patterns={patterns} />}
      {rings.length > 0 && <Rings view={view} lot={view.lot.id} ring={ring} rings={rings} />}
      <div class="acts section">
        <a class="press plain" href={`/mark/${id}`}>
          {words.mark}
        </a>
      </div>
    </Page>
  );
}

interface WebsProps {
  readonly view: MarkView;
  readonly lot: string;
  readonly patterns: readonly WebsWorn[];
}

function Webs({ view, lot, patterns }: WebsProps) {
  const { marks, standing: totals } = view;
  const last = marks.filter((mark) => mark.recheck && mark.webs.length > 0).at(-1);
  return (
    <section class="section">
      <h2>{words.again.webs}</h2>
      {patterns.length === 1 && <p>{markInWords(patterns[0]?.webs ?? [], null, "")}</p>}
      <p class="quiet" role="status">
        {last ? words.again.noted(dayWords(last.atMs, totals.keeper.zone)) : words.again.never}
      </p>
      <div class="acts mark-keys">
        <Press
          kind="main"
          onPress={() =>
            void websOpen(
              lot,
              patterns.map(({ webs }) => webs),
            )
          }
        >
          {words.again.websOpen}
        </Press>
      </div>
      {patterns.map((one) => (
        <Closed key={patternKey(one.webs)} lot={lot} worn={one} isOnly={patterns.length === 1} />
      ))}
    </section>
  );
}

interface ClosedProps {
  readonly lot: string;
  readonly worn: WebsWorn;
  readonly isOnly: boolean;
}

/** How many of one pattern had grown together. */
function Closed({ lot, worn: { webs, n: most }, isOnly }: ClosedProps) {
  const [typed, setTyped] = useState(1);
  const n = Math.min(typed, most);
  return (
    <div class={isOnly ? undefined : "section"}>
      {!isOnly && <h3>{words.again.wear(most, websInWords(webs))}</h3>}
      <div class="field">
        <span class="label">{words.again.websClosed}</span>
        <Stepper
          label={isOnly ? words.again.websClosed : words.again.websClosedOf(webs)}
          value={n}
          least={1}
          most={most}
          onChange={setTyped}
          words={everywhere}
        />
      </div>
      <div class="acts">
        <Press kind="firm" onPress={() => void websPunchedAgain(lot, webs, n)}>
          {isOnly ? words.again.websSave(n) : words.again.websSaveOf(n, webs)}
        </Press>
      </div>
    </div>
  );
}

/** One look is for all that wear rings in the place. */
function ringedHere({ worn, place, standing: totals }: MarkView) {
  return worn.filter(({ tag, lot }) => {
    const batch = totals.lots.get(lot ?? "");
    return tag?.kind === "ring" && batch !== undefined && placeOfChicks(totals, batch) === place;
  });
}

interface RingsProps {
  readonly view: MarkView;
  readonly lot: string;
  readonly ring: string;
  readonly rings: readonly RingsWorn[];
}

function Rings({ view, lot, ring, rings }: RingsProps) {
  const now_ms = useNow();
  const { place, standing: totals } = view;
  const { zone } = totals.keeper;
  const looked = (totals.heads.care ?? []).filter(
    ({ body }) => body.task === "rings" && (!body.place || body.place === place),
  );
  const given = rings.flatMap((one) => one.marks);
  const last = Math.max(...[...given, ...looked].map(({ atMs }) => atMs));
  return (
    <section class="section">
      <h2>{words.again.rings(ring)}</h2>
      {rings.map(({ tag, n }) => (
        <p key={tagInWords(tag, ring)}>
          {rings.length === 1 ? tagInWords(tag, ring) : words.again.wear(n, tagInWords(tag, ring))}
        </p>
      ))}
      <p class="quiet" role="status">
        {words.again.noted(dayWords(last, zone))}
      </p>
      <p class="quiet">
        {words.again.ringsOf(whoseWords(totals, ringedHere(view)), placeName(totals, place))}
      </p>
      <div class="acts mark-keys">
        <Press kind="main" onPress={() => void taskDone("rings", dayKey(now_ms, zone), place || undefined)}>
          {words.again.ringsTurn}
        </Press>
        {rings.map(({ tag, marks }) => (
          <Press key={tagInWords(tag, ring)} kind="firm" onPress={() => void ringsChanged(lot, marks)}>
            {rings.length === 1
              ? words.again.ringsChanged(ring)
              : words.again.ringsChangedOf(ring, tagInWords(tag, ring))}
          </Press>
        ))}
      </div>
    </section>
  );
}
