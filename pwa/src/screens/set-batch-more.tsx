// What else may be told of a batch: when it was laid, from where it came, whether one hen laid it all.
import { batchMore as words } from "../app/words/set.ts";
import { sourceTitle } from "../trade/sources.ts";
import { REST_AFTER_POST_H } from "../trade/storage.ts";
import { Choice } from "./parts/choice.tsx";
import { DayField } from "./parts/day-field.tsx";
import { Notice } from "./parts/notice.tsx";
import { TextField } from "./parts/text-field.tsx";
import { Why } from "./parts/why.tsx";
import { HenSelect } from "./place-form.tsx";
import { type Batch, faultOf, NEW } from "./set-draft.ts";

const WHERES = ["own", "bought", "post"] as const;
const HENS = ["several", "one"] as const;

interface BatchMoreProps {
  readonly batch: Batch;
  readonly name: string;
  readonly setOn: string;
  readonly onChange: (batch: Batch) => void;
}

export function BatchMore({ batch, name, setOn, onChange }: BatchMoreProps) {
  const change = (part: Partial<Batch>) => onChange({ ...batch, ...part });
  const fault = faultOf(batch, setOn);
  const [low, high] = REST_AFTER_POST_H.value;
  return (
    <details>
      <summary>
        <span aria-hidden="true">{words.short}</span>
        <span class="heard">{words.title(name)}</span>
      </summary>
      <div class="pair">
        <DayField
          label={words.laidFrom}
          value={batch.laidFrom}
          max={setOn}
          onType={(laidFrom) => change({ laidFrom, filled: false })}
        />
        <DayField
          label={words.laidTo}
          value={batch.laidTo}
          max={setOn}
          onType={(laidTo) => change({ laidTo, filled: false })}
        />
      </div>
      {(fault === "swapped" || fault === "ahead") && <p class="fault">{words[fault]}</p>}
      <Choice
        label={words.hens}
        value={batch.oneHen ? "one" : "several"}
        options={HENS.map((value) => ({ value, text: words.henChoices[value] }))}
        onChoose={(value) => change({ oneHen: value === "one" })}
      />
      {batch.oneHen && (
        <HenSelect
          label={words.hen}
          value={batch.hen}
          none={words.henUnknown}
          onChoose={(hen) => change({ hen })}
          {...(batch.family === NEW ? {} : { family: batch.family })}
        />
      )}
      <Choice
        label={words.where}
        value={batch.where}
        options={WHERES.map((value) => ({ value, text: words.wheres[value] }))}
        onChoose={(where) => change({ where })}
      />
      {batch.where !== "own" && (
        <div class="pair">
          <TextField
            label={words.who}
            value={batch.who}
            onType={(who) => change({ who })}
            hint={words.whoNeeded}
            capitals="words"
          />
          <DayField
            label={words.arrived}
            value={batch.arrived}
            max={setOn}
            onType={(arrived) => change({ arrived })}
          />
        </div>
      )}
      {batch.where === "post" && (
        <Notice>
          <p>{words.postNote(low, high)}</p>
          <p class="quiet">{words.postApart}</p>
          <Why
            about={words.where}
            formula={words.postNote(low, high)}
            sources={[
              {
                title: sourceTitle(REST_AFTER_POST_H.source) ?? REST_AFTER_POST_H.source,
                status: REST_AFTER_POST_H.status,
              },
            ]}
          />
        </Notice>
      )}
    </details>
  );
}
