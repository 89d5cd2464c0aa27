// A tally that was not now: what is tapped from here on is written for that time.
import { useState } from "preact/hooks";
import { when as words } from "../app/words/tally-panels.ts";
import { FormEnd } from "./parts/form-end.tsx";
import { type Moment, NOW } from "./parts/moment.ts";
import type { Counting } from "./tally-turn.ts";
import { When, whenOf } from "./when.tsx";

export function TallyWhen({ now_ms, open, setAt }: Counting) {
  const [moment, setMoment] = useState<Moment>(NOW);
  const now = new Date(now_ms);
  const date = whenOf(moment, now);
  const save = () => {
    if (date === undefined) return;
    setAt(date);
    open("keys");
  };
  return (
    <section aria-label={words.title} class="typed">
      <h2>{words.title}</h2>
      <When moment={moment} now={now} onChange={setMoment} />
      <FormEnd save={words.save} off={date === undefined} onSave={save} onCancel={() => open("keys")} />
    </section>
  );
}
