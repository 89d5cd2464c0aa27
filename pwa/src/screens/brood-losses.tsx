// Dead, culled, missing: who, how many, why and when; and what to do where several died.
import { useState } from "preact/hooks";
import { everywhere } from "../app/words/everywhere.ts";
import { losses as words } from "../app/words/losses.ts";
import { machine } from "../app/words/machine.ts";
import { safety } from "../app/words/safety.ts";
import { deathsWithinADay } from "../book/deaths.ts";
import type { Lot } from "../book/standing.ts";
import { undo } from "../state/actions.ts";
import { type Lost, loseAmong, loseYoung } from "../state/broods.ts";
import { onScreen } from "../state/recording.ts";
import { standing } from "../state/standing.ts";
import { CALL_AT, TOGETHER, WORDS } from "../trade/losses.ts";
import { type Group, lotsOf } from "./brood-view.ts";
import { type Moment, NOW } from "./parts/moment.ts";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { SelectField } from "./parts/select-field.tsx";
import { Stepper } from "./parts/stepper.tsx";
import { When, whenOf } from "./when.tsx";

const WAYS: readonly Lost[] = ["died", "culled", "unaccounted"];
const CAUSES = Object.keys(words.causes);
/** Of one of several batches of one hatch: which, nobody knows. */
const AMONG = "";

/** Young that may be lost: of one batch in one place. */
export interface Losable extends Pick<Group, "lot" | "among" | "name" | "n" | "stages"> {
  readonly place: string;
}

interface LossFormProps {
  readonly groups: readonly Losable[];
  readonly now_ms: number;
}

interface Saved {
  readonly said: string;
  readonly id: string;
}

export function LossForm({ groups, now_ms }: LossFormProps) {
  const [how, setHow] = useState<Lost | null>(null);
  const [saved, setSaved] = useState<Saved | null>(null);
  return (
    <>
      <div class="acts mark-keys">
        {WAYS.map((way) => (
          <Press
            key={way}
            kind="firm"
            expanded={way === how}
            onPress={() => setHow(way === how ? null : way)}
          >
            {words.ways[way]}
          </Press>
        ))}
      </div>
      {saved && (
        <div class="done-line" role="status">
          <p>{saved.said}</p>
          <div class="acts">
            <Press
              kind="plain"
              name={`${machine.undo}: ${saved.said}`}
              onPress={() => {
                void undo(saved.id);
                setSaved(null);
              }}
            >
              {machine.undo}
            </Press>
          </div>
        </div>
      )}
      {how && (
        <LossPanel
          key={how}
          how={how}
          groups={groups}
          now_ms={now_ms}
          onSaved={(done) => {
            setSaved(done);
            setHow(null);
          }}
        />
      )}
    </>
  );
}

interface LossPanelProps extends LossFormProps {
  readonly how: Lost;
  readonly onSaved: (saved: Saved) => void;
}

function LossPanel({ how, groups, now_ms, onSaved }: LossPanelProps) {
  const [chosen, setChosen] = useState(String(groups.length === 1 ? 0 : ""));
  const [n, setN] = useState(1);
  const [cause, setCause] = useState("");
  const [moment, setMoment] = useState<Moment>(NOW);
  const now = new Date(now_ms);
  const at = whenOf(moment, now);
  const among = amongOf(groups);
  const group = chosen === AMONG ? undefined : groups[Number(chosen)];
  const most = group?.n ?? among?.n ?? 0;
  const name = group?.name ?? words.notKnown.toLowerCase();
  const some = Math.min(n, most);
  const isReady = at !== undefined && most > 0 && (group !== undefined || among !== null);
  const save = () => {
    if (!isReady) return;
    const why = CAUSES.find((one) => one === cause && one !== "") as "weak" | undefined;
    const place = group?.place ?? groups[0]?.place ?? "";
    const loss = { how, ...(why ? { cause: why } : {}), ...(place ? { place } : {}), ...(at ? { at } : {}) };
    const [entry] = onScreen(async () => {
      if (group)
        await loseYoung({ lot: group.lot.id, among: group.among, stages: group.stages, n: some }, loss);
      else if (among) await loseAmong(among.lots, among.stage, some, loss);
    });
    if (entry) onSaved({ id: entry.id, said: words.saved(some, name, words.after[how]) });
  };
  const whose = groups.map((one, i) => ({ value: String(i), text: `${one.name}, ${one.n}` }));
  return (
    <fieldset class="section">
      <legend>{words.askOf[how]}</legend>
      {groups.length > 1 && (
        <SelectField
          label={words.whose}
          value={chosen}
          options={[{ value: AMONG, text: words.notKnown }, ...whose]}
          onChoose={setChosen}
        />
      )}
      <div class="field">
        <span class="label">{words.howMany}</span>
        <Stepper
          label={words.howMany}
          value={Math.max(1, some)}
          least={1}
          most={Math.max(1, most)}
          onChange={setN}
          words={everywhere}
        />
      </div>
      <SelectField
        label={words.cause}
        value={cause}
        options={CAUSES.map((value) => ({ value, text: words.causes[value] ?? value }))}
        onChoose={setCause}
        hint={TOGETHER.includes(cause) ? words.together : words.causeHint}
      />
      {how === "culled" && <p class="quiet">{words.cullingNote}</p>}
      <When moment={moment} now={now} onChange={setMoment} />
      <div class="acts">
        <Press kind="main" off={!isReady} onPress={save}>
          {words.save(some, name, words.after[how])}
        </Press>
      </div>
    </fieldset>
  );
}

/** The batches of one hatch and stage here, of which one may have lost it; null where there are not several. */
function amongOf(groups: readonly Losable[]) {
  const [first] = groups;
  const setting = first?.lot.setting ?? null;
  const stage = ["hatched", "brooding", "growing"].find((one) => first?.stages.has(one));
  const own = groups.filter((one) => one.lot.setting === setting && one.stages.has(stage ?? ""));
  if (setting === null || stage === undefined || own.length < 2 || own.length < groups.length) return null;
  const n = own.reduce((sum, one) => sum + (one.stages.get(stage) ?? 0), 0);
  return { lots: lotsOf(own), stage, n };
}

/** Where two or more died within a day: what to do and whom to call. */
export function DeathsNow({ lots, now_ms }: { lots: readonly Lot[]; now_ms: number }) {
  const n = deathsWithinADay(standing.value, lots, now_ms);
  if (n < CALL_AT.value) return null;
  return (
    <Notice tone="loss" live>
      <p>
        <b>{words.recent(n)}</b> {WORDS.call}
      </p>
    </Notice>
  );
}

/** The signs that the law wants told, and what a keeper can do until the vet comes. */
export function WhomToCall() {
  const { call } = words;
  return (
    <details class="told">
      <summary>{call.title}</summary>
      <p>{WORDS.call}</p>
      <p>{call.flu}</p>
      <p>{call.apart}</p>
      <p>{call.sample}</p>
      <p>{call.hands}</p>
      <p>{safety.rule}</p>
      <p class="quiet small">{call.sources}</p>
    </details>
  );
}
