// One round: how many eggs of each family were gathered, and how many of them are kept to set.
import { useState } from "preact/hooks";
import { eggStore as words } from "../app/words/eggs.ts";
import { everywhere } from "../app/words/everywhere.ts";
import type { Entry } from "../book/entries.ts";
import { gatherEggs } from "../state/eggs.ts";
import { onScreen } from "../state/recording.ts";
import { standing } from "../state/standing.ts";
import { shifted } from "../trade/backwards.ts";
import { localDate } from "../trade/calendar.ts";
import { useDay } from "./own-day.ts";
import { Choice } from "./parts/choice.tsx";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { SelectField } from "./parts/select-field.tsx";
import { Stepper } from "./parts/stepper.tsx";
import { HenSelect } from "./place-form.tsx";
import { isDay } from "./told-day.ts";

const MOST = 9999;

interface Round {
  readonly n: number;
  readonly kept: number;
  readonly dam: string;
}

interface EggsGatherProps {
  readonly now_ms: number;
  readonly onSaved: (entries: readonly Entry[], said: string) => void;
}

type Way = "today" | "yesterday" | "date";

export function EggsGather({ now_ms, onSaved }: EggsGatherProps) {
  const { families, places, keeper } = standing.value;
  const today = localDate(now_ms, keeper.zone);
  const stores = [...places].filter(([, place]) => place.role === "store");
  const [way, setWay] = useState<Way>("today");
  const [date, setDate] = useDay(today);
  const [store, setStore] = useState(stores.length === 1 ? (stores[0]?.[0] ?? "") : "");
  const [rounds, setRounds] = useState<ReadonlyMap<string, Round>>(new Map());
  const [fault, setFault] = useState<string | null>(null);
  const on = way === "today" ? today : way === "yesterday" ? (shifted(today, -1) ?? today) : date;
  const sorted = [...families].sort(([, a], [, b]) => a.name.localeCompare(b.name));
  const roundOf = (id: string) => rounds.get(id) ?? { n: 0, kept: 0, dam: "" };
  const change = (id: string, part: Partial<Round>) => {
    const before = roundOf(id);
    const round = { ...before, ...part };
    // Kept follows what was gathered until it is told apart.
    const kept = part.n !== undefined && before.kept === before.n ? round.n : Math.min(round.kept, round.n);
    setRounds(new Map(rounds).set(id, { ...round, kept }));
    setFault(null);
  };
  const found = [...rounds].map(([family, { n, kept, dam }]) => ({
    family,
    n,
    kept,
    ...(dam ? { dam } : {}),
  }));
  const sum = found.reduce((total, one) => total + one.n, 0);
  const save = () => {
    const wrong = sum === 0 ? words.nothing : !isDay(on) || on > today ? words.ahead : null;
    setFault(wrong);
    if (wrong) return;
    const kept = found.reduce((total, one) => total + one.kept, 0);
    setRounds(new Map());
    onSaved(
      onScreen(() => gatherEggs(on, found, store || undefined)),
      words.saved(sum, kept),
    );
  };
  return (
    <section class="section" aria-label={words.gatherTitle}>
      <h2>{words.gatherTitle}</h2>
      <Choice
        label={words.day}
        value={way}
        options={(["today", "yesterday", "date"] as const).map((value) => ({
          value,
          text: words.days[value],
        }))}
        onChoose={setWay}
      />
      {way === "date" && (
        <div class="field">
          <label for="gathered-on">{words.day}</label>
          <input
            id="gathered-on"
            type="date"
            max={today}
            value={date}
            onInput={(event) => setDate(event.currentTarget.value)}
          />
        </div>
      )}
      {sorted.map(([id, family]) => {
        const round = roundOf(id);
        return (
          <fieldset class="batch-edit" key={id}>
            <legend>{family.name}</legend>
            <div class="line">
              <div class="field eggs-field">
                <span class="label">{words.foundLabel}</span>
                <Stepper
                  label={words.found(family.name)}
                  value={round.n}
                  most={MOST}
                  onChange={(n) => change(id, { n })}
                  words={everywhere}
                />
              </div>
              {round.n > 0 && (
                <div class="field eggs-field">
                  <span class="label">{words.keptLabel}</span>
                  <Stepper
                    label={words.kept(family.name)}
                    value={round.kept}
                    most={round.n}
                    onChange={(kept) => change(id, { kept })}
                    words={everywhere}
                  />
                </div>
              )}
            </div>
            {round.n > 0 && (
              <HenSelect
                label={words.hen}
                value={round.dam}
                none={words.anyHen}
                family={id}
                onChoose={(dam) => change(id, { dam })}
              />
            )}
          </fieldset>
        );
      })}
      {stores.length > 0 && (
        <SelectField
          label={words.store}
          value={store}
          options={[
            { value: "", text: words.noStore },
            ...stores.map(([id, place]) => ({ value: id, text: place.name })),
          ]}
          onChoose={setStore}
        />
      )}
      {fault && (
        <Notice tone="loss" live>
          {fault}
        </Notice>
      )}
      <div class="acts">
        <Press kind="main" onPress={save}>
          {words.save(sum)}
        </Press>
      </div>
    </section>
  );
}
