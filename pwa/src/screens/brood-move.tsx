// Young of a place move house: how many of each batch, whereto, and what to mind before they meet others.
import { useState } from "preact/hooks";
import { brood as broodWords, broodMove as words } from "../app/words/brood.ts";
import { everywhere } from "../app/words/everywhere.ts";
import { machine } from "../app/words/machine.ts";
import { broods } from "../book/whereabouts.ts";
import { undo } from "../state/actions.ts";
import { moveYoung } from "../state/broods.ts";
import { addPlace } from "../state/holding.ts";
import { onScreen } from "../state/recording.ts";
import { standing } from "../state/standing.ts";
import { Minding } from "./brood-minding.tsx";
import { type Group, isHome, keyOf, NOWHERE, nestAt, nestPath, youngWords } from "./brood-view.ts";
import { placeName } from "./names.ts";
import { useNow } from "./now.ts";
import { Page } from "./page.tsx";
import { Choice } from "./parts/choice.tsx";
import { type Moment, NOW } from "./parts/moment.ts";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { SelectField } from "./parts/select-field.tsx";
import { Stepper } from "./parts/stepper.tsx";
import { PlaceForm } from "./place-form.tsx";
import { When, whenOf } from "./when.tsx";

const TARGETS = ["brooder", "hen", "pen", "apart"];
const STAGES = ["brooding", "growing"] as const;
type Stage = (typeof STAGES)[number];

/** What was moved last: what to say, whereto, and the entries that undo takes back. */
interface Moved {
  readonly n: number;
  readonly place: string;
  readonly ids: readonly string[];
}

export function BroodMoveScreen({ id }: { id: string }) {
  const now_ms = useNow();
  const totals = standing.value;
  const from = id === NOWHERE ? "" : (totals.rootOf.get(id) ?? id);
  const nest = nestAt(totals, from, now_ms);
  const [moved, setMoved] = useState<Moved | null>(null);
  const over = from === "" ? broodWords.inNoPlace : placeName(totals, from);
  return (
    <Page over={over} headline={nest.n === 0 ? words.nobody : words.title(youngWords(nest.groups))}>
      {moved && (
        <div class="done-line" role="status">
          <p>{words.moved(moved.n, placeName(totals, moved.place))}</p>
          <div class="acts">
            <Press
              kind="plain"
              onPress={() => {
                void undo(...moved.ids);
                setMoved(null);
              }}
            >
              {machine.undo}
            </Press>
            <a class="press firm" href={nestPath(moved.place)}>
              {words.seeThere}
            </a>
          </div>
        </div>
      )}
      {nest.n > 0 && (
        <MoveForm key={from} from={from} groups={nest.groups} now_ms={now_ms} onMoved={setMoved} />
      )}
    </Page>
  );
}

interface MoveFormProps {
  readonly from: string;
  readonly groups: readonly Group[];
  readonly now_ms: number;
  readonly onMoved: (moved: Moved) => void;
}

function MoveForm({ from, groups, now_ms, onMoved }: MoveFormProps) {
  const totals = standing.value;
  const homes = [...totals.places].filter(([id, place]) => TARGETS.includes(place.role) && id !== from);
  const [counts, setCounts] = useState<Readonly<Record<string, number>>>({});
  const [chosen, setChosen] = useState(homes[0]?.[0] ?? "");
  const [stage, setStage] = useState<Stage | null>(null);
  const [adding, setAdding] = useState(homes.length === 0);
  const [moment, setMoment] = useState<Moment>(NOW);
  const target = totals.places.get(chosen);
  const now = new Date(now_ms);
  const at = whenOf(moment, now);
  const some = groups
    .map((group) => {
      const { lot, among, stages, n } = group;
      return { lot: lot.id, among, stages, n: Math.min(n, counts[keyOf(group)] ?? n) };
    })
    .filter(({ n }) => n > 0);
  const n = some.reduce((sum, one) => sum + one.n, 0);
  const isUnderHeat = groups.some(({ stages }) => stages.has("hatched") || stages.has("brooding"));
  const becomes = stage ?? (target && !isHome(target) ? "growing" : "brooding");
  const there = broods(totals).filter((one) => one.place === chosen);
  const lots = [...new Set([...some, ...there].flatMap(({ lot, among }) => [lot, ...among]))];
  return (
    <>
      <fieldset class="section">
        <legend>{words.which}</legend>
        {groups.map((group) => (
          <div class="field" key={keyOf(group)}>
            <span class="label">{`${group.name}, ${youngWords([group])}`}</span>
            <Stepper
              label={group.name}
              value={Math.min(group.n, counts[keyOf(group)] ?? group.n)}
              most={group.n}
              onChange={(value) => setCounts({ ...counts, [keyOf(group)]: value })}
              words={everywhere}
            />
          </div>
        ))}
      </fieldset>
      {homes.length > 0 && (
        <SelectField
          label={words.to}
          value={chosen}
          options={homes.map(([id, place]) => ({ value: id, text: place.name }))}
          onChoose={setChosen}
        />
      )}
      {adding ? (
        <div class="batch-edit">
          {homes.length === 0 && <p class="section-note">{words.noPlace}</p>}
          <PlaceForm
            usual="brooder"
            onSave={(place) => {
              const [added] = onScreen(() => addPlace(place));
              if (!added) return;
              setChosen(added.id);
              setAdding(false);
            }}
            {...(homes.length > 0 ? { onCancel: () => setAdding(false) } : {})}
          />
        </div>
      ) : (
        <div class="acts">
          <Press kind="plain" onPress={() => setAdding(true)}>
            {words.addPlace}
          </Press>
        </div>
      )}
      {isUnderHeat && (
        <Choice
          label={words.stage}
          value={becomes}
          options={STAGES.map((value) => ({ value, text: words.stages[value] }))}
          onChoose={setStage}
        />
      )}
      {target?.role === "hen" && <p class="section-note">{words.adopt}</p>}
      {target?.role === "brooder" && there.length === 0 && <p class="section-note">{words.heatFirst}</p>}
      <Minding totals={totals} lots={lots} now_ms={now_ms} place={null} />
      {lots.length > some.length && some.length > 0 && <Notice>{words.warned}</Notice>}
      <When moment={moment} now={now} onChange={setMoment} />
      <div class="acts">
        <Press
          kind="main"
          off={n === 0 || !target || at === undefined}
          onPress={() => {
            const entries = onScreen(() =>
              moveYoung(some, { place: chosen, stage: becomes }, at ?? undefined),
            );
            if (entries.length > 0) onMoved({ n, place: chosen, ids: entries.map((entry) => entry.id) });
          }}
        >
          {words.go(n, target?.name ?? "")}
        </Press>
      </div>
    </>
  );
}
