// Chicks of a batch that are sold, given or culled: how many, to whom, when.
import { useState } from "preact/hooks";
import { leaving } from "../app/words/birds.ts";
import { choosing as words } from "../app/words/choosing.ts";
import { everywhere } from "../app/words/everywhere.ts";
import { safety } from "../app/words/safety.ts";
import type { Lot } from "../book/standing.ts";
import { matters, treatmentsOfLot } from "../book/treatments.ts";
import { undo } from "../state/actions.ts";
import { chicksGo } from "../state/birds.ts";
import { onScreen } from "../state/recording.ts";
import { standing } from "../state/standing.ts";
import { CULLING } from "../trade/movements.ts";
import { CauseField } from "./bird-leaves.tsx";
import { HeldBack } from "./held-back.tsx";
import { batchName } from "./names.ts";
import { useNow } from "./now.ts";
import { OrderNotice } from "./order-notice.tsx";
import { type Moment, NOW } from "./parts/moment.ts";
import { Press } from "./parts/press.tsx";
import { Stepper } from "./parts/stepper.tsx";
import { TextField } from "./parts/text-field.tsx";
import { UndoNotice } from "./parts/undo-notice.tsx";
import { dayKey } from "./told-time.ts";
import { When, whenOf } from "./when.tsx";

interface ChooseGoingProps {
  readonly lot: Lot;
  readonly to: "parted" | "culled";
  readonly most: number;
}

export function ChooseGoing({ lot, to, most }: ChooseGoingProps) {
  const totals = standing.value;
  const now_ms = useNow();
  const today = dayKey(now_ms, totals.keeper.zone);
  const [n, setN] = useState(1);
  const [who, setWho] = useState("");
  const [cause, setCause] = useState("");
  const [moment, setMoment] = useState<Moment>(NOW);
  const [last, setLast] = useState<{ readonly id: string; readonly n: number } | null>(null);
  const at = whenOf(moment, new Date(now_ms));
  const count = Math.min(n, most);
  const told = words.goWords[to];
  const held = treatmentsOfLot(totals, lot).filter((one) => matters(one, today));
  const save = () => {
    if (at === undefined) return;
    const more = to === "parted" ? { who: who.trim() } : { cause };
    const [entry] = onScreen(() => chicksGo(lot, count, to, { ...more, ...(at ? { at } : {}) }));
    if (!entry) return;
    setLast({ id: entry.id, n: count });
    setN(1);
  };
  return (
    <section class="section" aria-label={words.ways[to]}>
      {last && (
        <UndoNotice
          said={words.saved(last.n, told)}
          word={words.undo}
          onUndo={() => {
            void undo(last.id);
            setLast(null);
          }}
        />
      )}
      {to === "parted" && <OrderNotice today={today} />}
      <HeldBack treatments={held} today={today} eggs={to === "parted"} whose={() => batchName(totals, lot)} />
      <div class="field">
        <span class="label">{words.howMany}</span>
        <Stepper
          label={words.howMany}
          value={count}
          least={1}
          most={most}
          onChange={setN}
          words={everywhere}
        />
      </div>
      {to === "parted" ? (
        <TextField label={leaving.to} value={who} onType={setWho} hint={leaving.toHint} capitals="words" />
      ) : (
        <>
          <CauseField value={cause} onChoose={setCause} />
          <p class="section-note">
            {CULLING.value} {safety.rule}
          </p>
        </>
      )}
      <When moment={moment} now={new Date(now_ms)} onChange={setMoment} />
      <div class="acts mark-keys">
        <Press kind="main" off={at === undefined} onPress={save}>
          {words.goSave(count, told)}
        </Press>
      </div>
      <p class="quiet section-note">{words.lost}</p>
    </section>
  );
}
