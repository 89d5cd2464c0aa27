// A tray counted on paper: how many of each answer, written down at once.
import { useState } from "preact/hooks";
import { everywhere } from "../app/words/everywhere.ts";
import { typed as words } from "../app/words/tally-panels.ts";
import { Press } from "./parts/press.tsx";
import { Stepper } from "./parts/stepper.tsx";
import { KEYS, leavesHand } from "./tally-plan.ts";
import { answerWords, type Counting } from "./tally-turn.ts";

export function TallyTyped({ what, shown, name, left, acts, open }: Counting) {
  const [counts, setCounts] = useState<Readonly<Record<string, number>>>({});
  const keys = KEYS[what].filter(
    (key) => key.answer.does !== "none" && (shown !== null || key.answer.does === "move"),
  );
  const leaves = keys.filter((key) => leavesHand(key.answer));
  const after = left - leaves.reduce((sum, key) => sum + (counts[key.id] ?? 0), 0);
  const close = () => open("keys");
  const write = () => {
    for (const key of keys) {
      const n = counts[key.id] ?? 0;
      if (n > 0) acts.answer(key.answer, n);
    }
    close();
  };
  return (
    <section aria-label={words.title(name)} class="typed">
      <h2>{words.title(name)}</h2>
      <p class="quiet">{words.hint(left)}</p>
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
        <b>{words.left(after)}</b>
      </p>
      <div class="acts">
        <Press kind="plain" onPress={close}>
          {everywhere.cancel}
        </Press>
        <Press kind="main" off={after < 0 || keys.every((key) => !counts[key.id])} onPress={write}>
          {words.save}
        </Press>
      </div>
    </section>
  );
}
