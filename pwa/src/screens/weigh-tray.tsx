// Weighing a tray: how many eggs, full, empty; refused in words where it cannot be.
import { useState } from "preact/hooks";
import { everywhere } from "../app/words/everywhere.ts";
import { weigh as words } from "../app/words/weigh.ts";
import { faultOf, type Tray, type Weighings } from "../book/weighings.ts";
import { undo } from "../state/actions.ts";
import { weighTray } from "../state/machine.ts";
import { recent } from "../state/recording.ts";
import { standing } from "../state/standing.ts";
import { lossPct } from "../trade/weight-loss.ts";
import { gramsOf, massText, massTyped, massUnit } from "./measures.ts";
import { batchNames } from "./names.ts";
import { Choice } from "./parts/choice.tsx";
import { MeasureField, measured, numberFault } from "./parts/measure-field.tsx";
import { type Moment, NOW } from "./parts/moment.ts";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { Stepper } from "./parts/stepper.tsx";
import type { SettingView } from "./setting-view.ts";
import { clock } from "./told-time.ts";
import { When, whenOf } from "./when.tsx";

const ALL = "";
/** From a quail's to an ostrich's egg, with room on both sides. */
const LIGHTEST_G = 4;
const HEAVIEST_G = 2500;
/** Eggs lose 10 to 18 % until they pip; who loses more was weighed wrong. Our judgement. */
const MOST_LOST_PCT = 30;
const DAY_MS = 86_400_000;

interface WeighTrayProps {
  readonly view: SettingView;
  readonly weighed: Weighings;
  readonly now_ms: number;
}

export function WeighTray({ view, weighed, now_ms }: WeighTrayProps) {
  const totals = standing.value;
  const unit = massUnit(totals);
  const names = batchNames(totals, view.batches);
  const before = lastTray(view);
  const [lot, setLot] = useState(before?.lot ?? ALL);
  const [n, setN] = useState(before?.n ?? Math.min(20, view.inShell || view.eggsSet));
  const [gross, setGross] = useState("");
  const [tare, setTare] = useState(before ? massTyped(before.tare_g, unit) : "");
  const [moment, setMoment] = useState<Moment>(NOW);
  const [fault, setFault] = useState<string | null>(null);
  const [asked, setAsked] = useState(false);
  const [written, setWritten] = useState(0);
  const now = new Date(now_ms);
  const most = lot === ALL ? view.eggsSet : (view.batches.find((one) => one.id === lot)?.n ?? view.eggsSet);
  const [full, empty] = [measured(gross), measured(tare)];
  const grams =
    full !== null && empty !== null
      ? { gross_g: gramsOf(full, unit, gross), tare_g: gramsOf(empty, unit, tare) }
      : null;
  const each = grams && n > 0 ? (grams.gross_g - grams.tare_g) / n : null;
  const told = (text: string) => (asked || text !== "" ? numberFault(text, words.fault) : null);
  const save = () => {
    setAsked(true);
    const at = whenOf(moment, now);
    if (grams === null || each === null || at === undefined) return;
    const day = ((at ?? now).getTime() - view.setting.setAtMs) / DAY_MS;
    const wrong = refusal(weighed, lot || null, { eggG: each, n, day }, grams.tare_g, most);
    setFault(wrong);
    if (wrong) return;
    void weighTray(
      { setting: view.setting.id, n, ...grams, ...(lot === ALL ? {} : { lot }) },
      at ?? undefined,
    );
    setGross("");
    setAsked(false);
    setMoment(NOW);
    setWritten(written + 1);
  };
  return (
    <section class="section" aria-label={words.link}>
      <h2>{words.link}</h2>
      {view.batches.length > 1 && (
        <Choice
          label={words.tray}
          value={lot}
          options={[
            { value: ALL, text: words.all },
            ...view.batches.map((one) => ({ value: one.id, text: names.get(one.id) ?? "" })),
          ]}
          onChoose={(chosen) => {
            setLot(chosen);
            setFault(null);
          }}
        />
      )}
      <div class="field">
        <span class="label">{words.n}</span>
        <Stepper
          label={words.n}
          value={n}
          least={1}
          most={Math.max(1, most)}
          onChange={setN}
          words={everywhere}
        />
      </div>
      <div class="pair">
        <MeasureField label={words.tare(unit)} text={tare} onType={setTare} fault={told(tare)} />
        <MeasureField
          label={words.gross(unit)}
          text={gross}
          onType={setGross}
          fault={told(gross)}
          onEnter={save}
        />
      </div>
      {each !== null && each > 0 && (
        <p class="live-figure" role="status">
          {words.each(massText(each, unit))}
        </p>
      )}
      <When key={written} moment={moment} now={now} onChange={setMoment} />
      {fault && (
        <Notice tone="loss" live>
          <p>{fault}</p>
        </Notice>
      )}
      <div class="acts">
        <Press kind="main" onPress={save}>
          {words.save}
        </Press>
      </div>
      <LastWeighed view={view} />
    </section>
  );

  /** Why it cannot be, in words; null where it can. */
  function refusal(
    known: Weighings,
    tray: string | null,
    now: Tray,
    tare_g: number,
    mostEggs: number,
  ): string | null {
    if (now.n > mostEggs) return words.fault.moreThanSet(mostEggs);
    const first = known.trays.get(tray)?.first;
    const found = faultOf(known, tray, now, tare_g);
    if (found === "weight_gained") {
      const last = known.trays.get(tray)?.last ?? now;
      return words.fault.weight_gained(massText(last.eggG, unit), massText(now.eggG, unit));
    }
    if (found) return words.fault[found];
    if (now.eggG < LIGHTEST_G || now.eggG > HEAVIEST_G) return words.fault.odd_egg(massText(now.eggG, unit));
    const lost = first && first.eggG > now.eggG ? lossPct(first.eggG, now.eggG) : 0;
    return lost > MOST_LOST_PCT ? words.fault.lost_much(`${lost.toFixed(0)} %`) : null;
  }
}

/** What was weighed here a moment ago, to be taken back. */
function LastWeighed({ view }: { view: SettingView }) {
  const totals = standing.value;
  const heads = totals.heads.eggs_weighed ?? [];
  const entry = recent.value
    .filter((one) => one.kind === "eggs_weighed" && one.body.setting === view.setting.id)
    .at(-1);
  const head = heads.find((one) => one.root === entry?.id);
  if (!head) return null;
  const { n, gross_g, tare_g } = head.body;
  const each = massText((gross_g - tare_g) / n, massUnit(totals));
  return (
    <div class="done-line" role="status">
      <p>{words.saved(clock(head.atMs, totals.keeper.zone), n, each)}</p>
      <div class="acts">
        <Press kind="plain" onPress={() => void undo(head.root)}>
          {words.chart.takeBack}
        </Press>
      </div>
    </div>
  );
}

/** The tray weighed last: its tare, its eggs and its batch stand in the form again. */
function lastTray({ setting }: SettingView) {
  const totals = standing.value;
  const heads = (totals.heads.eggs_weighed ?? []).filter(
    ({ body }) => (totals.rootOf.get(body.setting) ?? body.setting) === setting.id,
  );
  return heads.sort((a, b) => a.atMs - b.atMs).at(-1)?.body ?? null;
}
