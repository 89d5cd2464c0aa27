// One batch while eggs are set: a family, a count, the sign on the shell. A new family is named in place.
import { everywhere } from "../app/words/everywhere.ts";
import { setEggs as words } from "../app/words/rooms.ts";
import type { Family } from "../book/bodies.generated.ts";
import { Press } from "./parts/press.tsx";
import { SelectField } from "./parts/select-field.tsx";
import { Stepper } from "./parts/stepper.tsx";
import { TextField } from "./parts/text-field.tsx";

/** Stands for "not in the book yet" where an id is chosen. */
export const NEW = "new";
const USUAL = 12;

export interface Batch {
  readonly family: string;
  /** Only for a new family. */
  readonly name: string;
  readonly breed: string;
  readonly n: number;
  readonly sign: string;
}

type Known = readonly [id: string, family: Readonly<Family>];

export function newBatch(known: Known | undefined): Batch {
  const sign = known?.[1].sign ?? "";
  return { family: known?.[0] ?? NEW, name: "", breed: known?.[1].breed ?? "", n: USUAL, sign };
}

interface BatchEditProps {
  readonly at: number;
  readonly batch: Batch;
  readonly families: readonly Known[];
  readonly onChange: (batch: Batch) => void;
  readonly onRemove?: () => void;
}

export function BatchEdit({ at, batch, families, onChange, onRemove }: BatchEditProps) {
  const named =
    families.find(([id]) => id === batch.family)?.[1].name ?? (batch.name.trim() || words.batch(at));
  const choose = (family: string) => {
    const sign = families.find(([id]) => id === family)?.[1].sign;
    onChange({ ...batch, family, sign: sign ?? (family === NEW ? "" : batch.sign) });
  };
  return (
    <fieldset class="batch-edit">
      <legend>{words.batch(at)}</legend>
      <div class="line">
        <SelectField
          label={words.family}
          value={batch.family}
          options={[
            ...families.map(([id, family]) => ({ value: id, text: family.name })),
            { value: NEW, text: words.newFamily },
          ]}
          onChoose={choose}
        />
        <div class="field eggs-field">
          <span class="label">{words.count}</span>
          <Stepper
            label={words.countOf(named)}
            value={batch.n}
            least={0}
            most={20_000}
            onChange={(n) => onChange({ ...batch, n })}
            words={everywhere}
          />
        </div>
        <TextField
          label={words.sign}
          value={batch.sign}
          most={12}
          placeholder={words.signHint}
          onType={(sign) => onChange({ ...batch, sign })}
          capitals="characters"
        />
        {onRemove && (
          <Press kind="bare" name={words.removeBatch(named)} onPress={onRemove}>
            {everywhere.remove}
          </Press>
        )}
      </div>
      {batch.family === NEW && (
        <div class="pair">
          <TextField
            label={words.newFamilyName}
            value={batch.name}
            onType={(name) => onChange({ ...batch, name })}
            capitals="words"
          />
          <TextField
            label={words.breed}
            value={batch.breed}
            onType={(breed) => onChange({ ...batch, breed })}
            capitals="words"
          />
        </div>
      )}
    </fieldset>
  );
}
