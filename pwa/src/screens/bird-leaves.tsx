// Birds that leave, or died: one or several at once, each an entry of its own.
import { useState } from "preact/hooks";
import { leaving as words } from "../app/words/birds.ts";
import { losses } from "../app/words/losses.ts";
import { safety } from "../app/words/safety.ts";
import type { OneBird } from "../book/birds.ts";
import type { Left } from "../book/bodies.generated.ts";
import { matters, treatmentsOfBird } from "../book/treatments.ts";
import { birdsLeave } from "../state/birds.ts";
import { standing } from "../state/standing.ts";
import { CULLING, SIGNS, STILL } from "../trade/movements.ts";
import { HeldBack } from "./held-back.tsx";
import { useNow } from "./now.ts";
import { OrderNotice } from "./order-notice.tsx";
import { useDay } from "./own-day.ts";
import { Choice } from "./parts/choice.tsx";
import { DayField } from "./parts/day-field.tsx";
import { FormEnd } from "./parts/form-end.tsx";
import { SelectField } from "./parts/select-field.tsx";
import { TextField } from "./parts/text-field.tsx";
import { isDay } from "./told-day.ts";
import { dayKey } from "./told-time.ts";

const HOWS = ["sold", "given", "lent", "died", "culled", "lost"] as const;

interface BirdsLeaveProps {
  readonly birds: readonly OneBird[];
  readonly onDone: () => void;
}

export function BirdsLeave({ birds, onDone }: BirdsLeaveProps) {
  const totals = standing.value;
  const today = dayKey(useNow(), totals.keeper.zone);
  const [how, setHow] = useState<Left["how"]>("sold");
  const [to, setTo] = useState("");
  const [cause, setCause] = useState("");
  const [on, setOn] = useDay(today);
  const isAway = how === "sold" || how === "given" || how === "lent";
  const wrongDay = !isDay(on) || on > today;
  const told = words.hows[how].toLowerCase();
  const held = [
    ...new Map(birds.flatMap((one) => treatmentsOfBird(totals, one)).map((one) => [one.entry, one])).values(),
  ];
  const save = () => {
    if (wrongDay) return;
    const more = isAway ? (to.trim() ? { to: to.trim() } : {}) : cause ? { cause } : {};
    void birdsLeave(
      birds.map(({ id }) => id),
      { on, how, ...more },
    );
    onDone();
  };
  const title = words.title(birds.length, birds[0]?.label ?? "");
  return (
    <section class="section" aria-label={title}>
      <h2>{title}</h2>
      <Choice
        label={words.how}
        value={how}
        options={HOWS.map((value) => ({ value, text: words.hows[value] }))}
        onChoose={setHow}
      />
      {isAway && <OrderNotice today={today} />}
      {(isAway || how === "culled") && (
        <HeldBack treatments={held.filter((one) => matters(one, today))} today={today} eggs={isAway} />
      )}
      {isAway && (
        <TextField label={words.to} value={to} onType={setTo} hint={words.toHint} capitals="words" />
      )}
      {!isAway && <CauseField value={cause} onChoose={setCause} />}
      {how === "lent" && <p class="quiet section-note">{words.lentNote}</p>}
      {how === "died" && (
        <p class="section-note">
          {SIGNS.value} {STILL.value} {safety.rule}
        </p>
      )}
      {how === "culled" && (
        <p class="section-note">
          {CULLING.value} {safety.rule}
        </p>
      )}
      {(how === "lost" || cause.startsWith("predator")) && (
        <p class="quiet section-note">{words.predators}</p>
      )}
      <DayField label={words.day} value={on} max={today} onType={setOn} />
      {wrongDay && <p class="fault">{words.ahead}</p>}
      <FormEnd save={words.save(birds.length, told)} off={wrongDay} onSave={save} onCancel={onDone} />
    </section>
  );
}

/** Causes as the book knows them, in words. */
export function CauseField({ value, onChoose }: { value: string; onChoose: (cause: string) => void }) {
  return (
    <SelectField
      label={words.cause}
      value={value}
      options={Object.entries(losses.causes).map(([code, text]) => ({ value: code, text }))}
      onChoose={onChoose}
    />
  );
}
