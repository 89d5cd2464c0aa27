// A later look at marks: webs after two weeks, rings every week. What was found closed or changed is written with it.
import { useState } from "preact/hooks";
import { everywhere } from "../app/words/everywhere.ts";
import { marks as words } from "../app/words/marks.ts";
import { regionOf, termsOf } from "../app/words/region.ts";
import { placeOfChicks } from "../book/chores-marks.ts";
import { ownWords } from "../book/own-words.ts";
import { record } from "../state/actions.ts";
import { taskDone } from "../state/holding.ts";
import { standing } from "../state/standing.ts";
import { patternOf } from "../trade/marks.ts";
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
  const punched = view.marks.some((mark) => mark.webs.length > 0);
  const ringed = view.marks.some((mark) => mark.tag?.kind === "ring");
  return (
    <Page
      over={words.over(placeName(totals, view.place))}
      headline={words.again.title(view.named)}
      under={punched ? words.again.under(ownWords(totals.keeper.words)) : null}
    >
      {!punched && !ringed && <p class="section-note">{words.again.nothing}</p>}
      {punched && <Webs view={view} lot={view.lot.id} ring={ring} />}
      {ringed && <Rings view={view} lot={view.lot.id} ring={ring} />}
      <div class="acts section">
        <a class="press plain" href={`/mark/${id}`}>
          {words.mark}
        </a>
      </div>
    </Page>
  );
}

interface PartProps {
  readonly view: MarkView;
  readonly lot: string;
  readonly ring: string;
}

function Webs({ view, lot, ring }: PartProps) {
  const [n, setN] = useState(1);
  const { marks, alive, standing: totals } = view;
  const given = marks.filter((mark) => mark.webs.length > 0 && !mark.recheck);
  const webs = patternOf(given.at(-1)?.webs ?? []);
  const last = marks.filter((mark) => mark.recheck && mark.webs.length > 0).at(-1);
  const look = (closed: number | null) =>
    void record("marked", { lot, webs: [...webs], recheck: true, ...(closed ? { n: closed } : {}) });
  return (
    <section class="section">
      <h2>{words.again.webs}</h2>
      <p>{markInWords(webs, null, ring)}</p>
      <p class="quiet" role="status">
        {last ? words.again.noted(dayWords(last.atMs, totals.keeper.zone)) : words.again.never}
      </p>
      <div class="acts mark-keys">
        <Press kind="main" onPress={() => look(null)}>
          {words.again.websOpen}
        </Press>
      </div>
      <div class="field">
        <span class="label">{words.again.websClosed}</span>
        <Stepper
          label={words.again.websClosed}
          value={Math.min(n, alive)}
          least={1}
          most={alive}
          onChange={setN}
          words={everywhere}
        />
      </div>
      <div class="acts">
        <Press kind="firm" onPress={() => look(Math.min(n, alive))}>
          {words.again.websSave(Math.min(n, alive))}
        </Press>
      </div>
    </section>
  );
}

/** One look is for all that wear rings in the place. */
function ringedHere({ worn, place, standing: totals }: MarkView) {
  return worn.filter(({ tag, lot }) => {
    const batch = totals.lots.get(lot ?? "");
    return tag?.kind === "ring" && batch !== undefined && placeOfChicks(totals, batch) === place;
  });
}

function Rings({ view, lot, ring }: PartProps) {
  const now_ms = useNow();
  const { marks, place, standing: totals } = view;
  const { zone } = totals.keeper;
  const given = marks.filter((mark) => mark.tag?.kind === "ring").at(-1);
  const looked = (totals.heads.care ?? []).filter(
    ({ body }) => body.task === "rings" && (!body.place || body.place === place),
  );
  const last = Math.max(given?.atMs ?? 0, ...looked.map((care) => care.atMs));
  return (
    <section class="section">
      <h2>{words.again.rings(ring)}</h2>
      <p>{markInWords([], given?.tag ?? null, ring)}</p>
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
        <Press
          kind="firm"
          onPress={() => given && void record("marked", { lot, tag: given.tag, replaces: given.entry })}
        >
          {words.again.ringsChanged(ring)}
        </Press>
      </div>
    </section>
  );
}
