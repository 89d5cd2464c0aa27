// A tray counted on paper: how many of each answer, written down at once.
import { useState } from "preact/hooks";
import { everywhere } from "../app/words/everywhere.ts";
import { tally as words } from "../app/words/tally.ts";
import { Press } from "./parts/press.tsx";
import { Stepper } from "./parts/stepper.tsx";
import { type Answer, KEYS, type TallyWhat } from "./tally-plan.ts";
import { answerWords } from "./tally-turn.ts";

interface TallyTypedProps {
  readonly what: TallyWhat;
  readonly name: string;
  readonly left: number;
  readonly among: boolean;
  readonly onWrite: (answer: Answer, n: number) => void;
  readonly onClose: () => void;
}

export function TallyTyped({ what, name, left, among, onWrite, onClose }: TallyTypedProps) {
  const [counts, setCounts] = useState<Readonly<Record<string, number>>>({});
  const keys = KEYS[what].filter(
    (key) => key.answer.does !== "none" && (!among || key.answer.does === "move"),
  );
  // A pipped egg is still in the shell: it takes nothing out of hand.
  const leaves = keys.filter((key) => key.id !== "pipped");
  const after = left - leaves.reduce((sum, key) => sum + (counts[key.id] ?? 0), 0);
  const write = () => {
    for (const key of keys) {
      const n = counts[key.id] ?? 0;
      if (n > 0) onWrite(key.answer, n);
    }
    onClose();
  };
  return (
    <section aria-label={words.typedTitle(name)} class="typed">
      <h2>{words.typedTitle(name)}</h2>
      <p class="quiet">{words.typedHint(left)}</p>
      <div class="typed-counts">
        {keys.map((key) => (
          <div class="field" key={key.id}>
            <span class="label">{answerWords(key.id)}</span>
            <Stepper
              label={answerWords(key.id)}
              value={counts[key.id] ?? 0}
              most={left}
              onChange={(n) => setCounts({ ...counts, [key.id]: n })}
              words={everywhere}
            />
          </div>
        ))}
      </div>
      <p role="status">
        <b>{words.typedLeft(after)}</b>
      </p>
      <div class="acts">
        <Press kind="plain" onPress={onClose}>
          {everywhere.cancel}
        </Press>
        <Press kind="main" off={after < 0 || after === left} onPress={write}>
          {words.typedSave}
        </Press>
      </div>
    </section>
  );
}
