// One batch while eggs are set: a family, a count, the sign on the shell. A new family is named in place.

import { capital } from "../app/words/capital.ts";
import { everywhere } from "../app/words/everywhere.ts";
import { batchMore, setEggs as words } from "../app/words/set.ts";
import type { FamilyStore } from "../book/egg-store.ts";
import { ownWords } from "../book/own-words.ts";
import { standing } from "../state/standing.ts";
import { MOST_DAYS, storagePoints, WORSE_AFTER_DAYS } from "../trade/storage.ts";
import { Press } from "./parts/press.tsx";
import { SelectField } from "./parts/select-field.tsx";
import { Stepper } from "./parts/stepper.tsx";
import { TextField } from "./parts/text-field.tsx";
import { BatchMore } from "./set-batch-more.tsx";
import { type Batch, fromStore, type Known, NEW, newBatch } from "./set-draft.ts";
import { StorageWhy } from "./storage-why.tsx";
import { daysFrom, dayTold, isDay } from "./told-day.ts";

interface BatchEditProps {
  readonly at: number;
  readonly batch: Batch;
  readonly families: readonly Known[];
  readonly stores: ReadonlyMap<string, FamilyStore>;
  /** The day of setting, YYYY-MM-DD. */
  readonly setOn: string;
  readonly onChange: (batch: Batch) => void;
  readonly onRemove?: () => void;
}

export function BatchEdit({ at, batch, families, stores, setOn, onChange, onRemove }: BatchEditProps) {
  const own = ownWords(standing.value.keeper.words).family;
  const known = families.find(([id]) => id === batch.family);
  const named = known?.[1].name ?? (batch.name.trim() || words.batch(at));
  const store = stores.get(batch.family);
  const choose = (family: string) => {
    const next = families.find(([id]) => id === family);
    const fresh = newBatch(next, stores.get(family));
    const isCounted = batch.n !== newBatch(known, store).n;
    onChange({
      ...fresh,
      ...(isCounted ? { n: batch.n } : {}),
      sign: fresh.sign || (next ? batch.sign : ""),
    });
  };
  return (
    <fieldset class="batch-edit">
      <legend>{words.batch(at)}</legend>
      <div class="line">
        <SelectField
          label={capital(own.one)}
          value={batch.family}
          options={[
            ...families.map(([id, family]) => ({ value: id, text: family.name })),
            { value: NEW, text: words.newFamily(own.one) },
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
      {store && batch.where === "own" && <InStore batch={batch} store={store} onChange={onChange} />}
      <Age batch={batch} setOn={setOn} />
      <BatchMore batch={batch} name={named} setOn={setOn} onChange={onChange} />
    </fieldset>
  );
}

interface InStoreProps {
  readonly batch: Batch;
  readonly store: FamilyStore;
  readonly onChange: (batch: Batch) => void;
}

/** How many lie there; where some are old, one tap takes all or the fresh ones. */
function InStore({ batch, store, onChange }: InStoreProps) {
  const [first, last] = [store.parcels[0], store.parcels.at(-1)];
  if (!first || !last) return null;
  const all = fromStore(store, Number.POSITIVE_INFINITY);
  const ways = [WORSE_AFTER_DAYS, MOST_DAYS].flatMap((days) => {
    const fit = fromStore(store, days);
    return fit && fit.n < store.n ? [{ days, fit }] : [];
  });
  const apart = ways.filter(({ fit }, i) => ways.findIndex((other) => other.fit.n === fit.n) === i);
  return (
    <div class="section-note">
      <p class="quiet">{batchMore.inStore(store.n, dayTold(first.on), dayTold(last.on))}</p>
      {batch.n > store.n && <p>{batchMore.more(batch.n, store.n)}</p>}
      {apart.length > 0 && (
        <div class="acts">
          {apart.map(({ days, fit }) => (
            <Press key={days} kind="plain" onPress={() => onChange({ ...batch, ...fit })}>
              {batchMore.useFresh(fit.n, days)}
            </Press>
          ))}
          <Press kind="plain" onPress={() => onChange({ ...batch, ...all })}>
            {batchMore.useAll(store.n)}
          </Press>
        </div>
      )}
    </div>
  );
}

/** How old the oldest will be at setting, and what that cost commercial flocks. */
function Age({ batch, setOn }: { batch: Batch; setOn: string }) {
  const laid = batch.laidFrom || batch.laidTo;
  if (!isDay(laid) || laid > setOn) return null;
  const days = daysFrom(laid, setOn);
  const points = storagePoints(days);
  const cost = points === null ? batchMore.beyond(14) : batchMore.cost(points.toFixed(1));
  return (
    <div class="section-note">
      <p class={days > WORSE_AFTER_DAYS ? "" : "quiet"}>
        {`${batchMore.age(days)}${days > WORSE_AFTER_DAYS ? `; ${cost}` : ""}.`}
      </p>
      {days > WORSE_AFTER_DAYS && <StorageWhy days={days} points={points} />}
    </div>
  );
}
