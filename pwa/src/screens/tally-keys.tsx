// The six answers, and the rarer ones behind "something else". Keys 1 to 6 answer too, so that a pedal works: each has
// its answer for good, and none does anything while that answer is not shown.
import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { everywhere } from "../app/words/everywhere.ts";
import { tally as words } from "../app/words/tally.ts";
import { useKeyboard } from "./keyboard.ts";
import { Egg } from "./parts/egg.tsx";
import { Press } from "./parts/press.tsx";
import {
  type Answer,
  answered,
  isPossible,
  KEYS,
  OTHER_KEYS,
  type Pile,
  roomFor,
  type TallyBatch,
  type TallyKey,
  type TallyWhat,
} from "./tally-plan.ts";
import { answerWords } from "./tally-turn.ts";

interface TallyKeysProps {
  readonly what: TallyWhat;
  readonly batch: TallyBatch;
  readonly pile: Pile;
  readonly left: number;
  /** For eggs whose family is not known only moves can be written, no looks. */
  readonly among: boolean;
  readonly onAnswer: (answer: Answer) => void;
  /** Shown with the rarer answers. */
  readonly children?: ComponentChildren;
}

export function TallyKeys({ what, batch, pile, left, among, onAnswer, children }: TallyKeysProps) {
  const [others, setOthers] = useState(false);
  const possible = (key: TallyKey) => (!among || key.answer.does === "move") && isPossible(key, what, pile);
  const keys = (others ? OTHER_KEYS[what] : KEYS[what]).filter(possible);
  useKeyboard((pressed) => {
    const key = KEYS[what][Number(pressed) - 1];
    if (key && !others && possible(key)) onAnswer(key.answer);
  });
  const isFull = ({ answer }: TallyKey) => roomFor(answer, left, batch.pipped) === 0;
  const large = !others && !among;
  return (
    <div class="keys">
      {keys.map((key, at) => (
        <Press
          key={key.id}
          counts
          kind={large && at === 0 ? "main" : "firm"}
          onPress={() => {
            onAnswer(key.answer);
            setOthers(false);
          }}
          off={isFull(key)}
          {...(others ? {} : { keys: String(KEYS[what].indexOf(key) + 1) })}
        >
          <Egg shape={key.shape} height={large && at === 0 ? 38 : 30} lying={false} />
          <span class="said">{answerWords(key.id)}</span>
          <span class="n">{noteOf(key, batch, isFull(key))}</span>
        </Press>
      ))}
      {others && children}
      <Press kind="plain" class="turn" expanded={others} onPress={() => setOthers(!others)}>
        {others ? everywhere.back : words.other}
      </Press>
    </div>
  );
}

function noteOf(key: TallyKey, batch: TallyBatch, isFull: boolean): string {
  if (key.answer.does === "none") return words.buttons.noneNote;
  const n = answered(key, batch);
  if (isFull) return words.all(n);
  if (key.id === "unsure" && n > 0) return words.lookAgain(n);
  return words.soFar(n);
}
