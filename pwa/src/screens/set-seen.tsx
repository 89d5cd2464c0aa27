// A setting that runs already, entered late: what a candling took out so far, and whether turning was stopped.
import { everywhere } from "../app/words/everywhere.ts";
import { regionOf } from "../app/words/region.ts";
import { runsAlready as words } from "../app/words/set.ts";
import { stageWords } from "../app/words/stages.ts";
import { standing } from "../state/standing.ts";
import { Choice } from "./parts/choice.tsx";
import { Stepper } from "./parts/stepper.tsx";
import { type Batch, foundIn } from "./set-draft.ts";

const PILES = ["clear", "blood_ring", "quitter"] as const;

/** candledDay: null: not held to the light yet. */
export interface SeenDraft {
  readonly candledDay: number | null;
  readonly locked: boolean;
}

interface SetSeenProps {
  readonly day: number;
  /** Days of the species: the candlings that have passed, and lockdown where a machine sees to it. */
  readonly candleDays: readonly number[];
  readonly lockdownDay: number | null;
  readonly draft: SeenDraft;
  readonly batches: readonly Batch[];
  readonly nameOf: (batch: Batch) => string;
  readonly onChange: (draft: SeenDraft) => void;
  readonly onBatch: (at: number, batch: Batch) => void;
}

export function SetSeen(props: SetSeenProps) {
  const { day, candleDays, lockdownDay, draft, batches, nameOf, onChange, onBatch } = props;
  const { candledDay, locked } = draft;
  const usual = candleDays.filter((one) => one <= day).at(-1) ?? day;
  return (
    <section class="section">
      <h2>{words.title}</h2>
      <p>{words.day(day)}</p>
      <Choice
        label={words.candled}
        value={candledDay === null ? "no" : "yes"}
        options={[
          { value: "no", text: words.notYet },
          { value: "yes", text: words.yes },
        ]}
        onChoose={(value) => onChange({ ...draft, candledDay: value === "yes" ? usual : null })}
      />
      {candledDay !== null && (
        <>
          <div class="field eggs-field">
            <span class="label">{words.candledDay}</span>
            <Stepper
              label={words.candledDay}
              value={candledDay}
              least={1}
              most={day}
              onChange={(on) => onChange({ ...draft, candledDay: on })}
              words={everywhere}
            />
          </div>
          {batches.map((batch, at) => (
            <BatchSeen
              key={at}
              batch={batch}
              name={nameOf(batch)}
              onChange={(changed) => onBatch(at, changed)}
            />
          ))}
        </>
      )}
      {lockdownDay !== null && day >= lockdownDay && (
        <Choice
          label={words.locked}
          value={locked ? "yes" : "no"}
          options={[
            { value: "no", text: words.no },
            { value: "yes", text: words.yes },
          ]}
          onChoose={(value) => onChange({ ...draft, locked: value === "yes" })}
        />
      )}
      {lockdownDay !== null && locked && day >= lockdownDay && (
        <p class="quiet section-note">{words.lockedNote(lockdownDay)}</p>
      )}
    </section>
  );
}

function BatchSeen({
  batch,
  name,
  onChange,
}: {
  batch: Batch;
  name: string;
  onChange: (batch: Batch) => void;
}) {
  const region = regionOf(standing.value.keeper.region);
  const left = batch.n - foundIn(batch);
  return (
    <fieldset class="batch-edit">
      <legend>{name}</legend>
      <div class="line">
        {PILES.map((pile) => {
          const word = stageWords(pile, region).button;
          return (
            <div class="field eggs-field" key={pile}>
              <span class="label">{word}</span>
              <Stepper
                label={`${word}, ${name}`}
                value={batch.found[pile] ?? 0}
                most={batch.n}
                onChange={(n) => onChange({ ...batch, found: { ...batch.found, [pile]: n } })}
                words={everywhere}
              />
            </div>
          );
        })}
      </div>
      {left >= 0 ? <p>{words.rest(left)}</p> : <p class="fault">{words.tooMany}</p>}
    </fieldset>
  );
}
