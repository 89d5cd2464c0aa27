// A tray counted on paper: how many of each answer, written down at once.
import { useState } from "preact/hooks";
import { everywhere } from "../app/words/everywhere.ts";
import { typed as words } from "../app/words/tally-panels.ts";
import { FormEnd } from "./parts/form-end.tsx";
import { Stepper } from "./parts/stepper.tsx";
import { KEYS, leavesHand, roomFor, type TallyKey } from "./tally-plan.ts";
import { answerWords, type Counting } from "./tally-turn.ts";

export function TallyTyped({ what, batch, shown, name, left, acts, open }: Counting) {
  const [counts, setCounts] = useState<Readonly<Record<string, number>>>({});
  const [refused, setRefused] = useState(false);
  const keys = KEYS[what].filter(
    (key) => key.answer.does !== "none" && (shown !== null || key.answer.does === "move"),
  );
  const typed = (some: readonly TallyKey[]) => some.reduce((sum, key) => sum + (counts[key.id] ?? 0), 0);
  const leaves = keys.filter((key) => leavesHand(key.answer));
  const stays = keys.filter((key) => !leavesHand(key.answer));
  const after = left - typed(leaves);
  const pipped = Math.max(0, batch.pipped - typed(leaves)); // only what comes out stands beside pips
  const tooMany = stays.some((key) => typed([key]) > roomFor(key.answer, after, pipped));
  const close = () => open("keys");
  const write = () => {
    // Chicks that came out were pipped before; those typed as pipped are still in the shell.
    const unwritten = [...leaves, ...stays].filter((key) => {
      const n = typed([key]);
      return n > 0 && !acts.answer(key.answer, n);
    });
    if (unwritten.length === 0) return close();
    setCounts(Object.fromEntries(unwritten.map((key) => [key.id, typed([key])])));
    setRefused(true);
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
        {after >= 0 && tooMany && <span class="warned"> {words.pips(after - pipped, pipped)}</span>}
        {refused && <span class="warned"> {words.refused}</span>}
      </p>
      <FormEnd
        save={words.save}
        off={after < 0 || tooMany || typed(keys) === 0}
        onSave={write}
        onCancel={close}
      />
    </section>
  );
}
