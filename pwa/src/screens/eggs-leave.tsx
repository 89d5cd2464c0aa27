// Eggs that leave the store unset: sold, given, eaten, thrown away.
import { useState } from "preact/hooks";
import { eggStore as words } from "../app/words/eggs.ts";
import { everywhere } from "../app/words/everywhere.ts";
import type { EggStore } from "../book/egg-store.ts";
import type { Entry } from "../book/entries.ts";
import { eggsOfFamilyHeldBack } from "../book/treatments.ts";
import { eggsLeave } from "../state/eggs.ts";
import { onScreen } from "../state/recording.ts";
import { standing } from "../state/standing.ts";
import { HeldBack } from "./held-back.tsx";
import { familyName } from "./names.ts";
import { OrderNotice } from "./order-notice.tsx";
import { useDay } from "./own-day.ts";
import { Choice } from "./parts/choice.tsx";
import { DayField } from "./parts/day-field.tsx";
import { Press } from "./parts/press.tsx";
import { SelectField } from "./parts/select-field.tsx";
import { Stepper } from "./parts/stepper.tsx";
import { TextField } from "./parts/text-field.tsx";
import { isDay } from "./told-day.ts";

const HOWS = ["sold", "given", "eaten", "discarded"] as const;
type How = (typeof HOWS)[number];

interface EggsLeaveProps {
  readonly store: EggStore;
  readonly onSaved: (entries: readonly Entry[], said: string) => void;
}

export function EggsLeave({ store, onSaved }: EggsLeaveProps) {
  const there = store.families.filter((one) => one.n > 0);
  const [family, setFamily] = useState(there[0]?.family ?? "");
  const [n, setN] = useState(1);
  const [how, setHow] = useState<How>("eaten");
  const [to, setTo] = useState("");
  const [on, setOn] = useDay(store.on);
  const wrongDay = !isDay(on) || on > store.on;
  const most = there.find((one) => one.family === family)?.n ?? 1;
  const count = Math.min(n, most);
  const laid = there.flatMap((one) => (one.family === family ? one.parcels.map((parcel) => parcel.on) : []));
  const held = eggsOfFamilyHeldBack(standing.value, family, store.on, laid);
  const save = () => {
    if (wrongDay) return;
    const body = { family, on, n: count, how, ...(to.trim() ? { to: to.trim() } : {}) };
    onSaved(
      onScreen(() => eggsLeave(body)),
      words.left(count, words.howsAfter[how]),
    );
  };
  return (
    <section class="section" aria-label={words.outTitle}>
      <h2>{words.outTitle}</h2>
      <fieldset class="batch-edit">
        <div class="line">
          <SelectField
            label={words.outFamily}
            value={family}
            options={there.map((one) => ({
              value: one.family,
              text: `${familyName(standing.value, one.family)}, ${words.inStore(one.n)}`,
            }))}
            onChoose={setFamily}
          />
          <div class="field eggs-field">
            <span class="label">{words.count}</span>
            <Stepper
              label={words.count}
              value={count}
              least={1}
              most={most}
              onChange={setN}
              words={everywhere}
            />
          </div>
        </div>
      </fieldset>
      <Choice
        label={words.how}
        value={how}
        options={HOWS.map((value) => ({ value, text: words.hows[value] }))}
        onChoose={setHow}
      />
      {how !== "discarded" && <HeldBack treatments={held} today={store.on} meat={false} laid />}
      {(how === "sold" || how === "given") && (
        <>
          <OrderNotice today={store.on} />
          <TextField label={words.to} value={to} onType={setTo} capitals="words" />
        </>
      )}
      <DayField label={words.day} value={on} max={store.on} onType={setOn} />
      {wrongDay && <p class="fault">{words.ahead}</p>}
      <div class="acts">
        <Press kind="main" off={wrongDay} onPress={save}>
          {everywhere.save}
        </Press>
      </div>
    </section>
  );
}
