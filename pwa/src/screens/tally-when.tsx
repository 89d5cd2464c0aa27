// A tally that was not now: what is tapped from here on is written for that time.
import { useState } from "preact/hooks";
import { everywhere } from "../app/words/everywhere.ts";
import { when as words } from "../app/words/tally-panels.ts";
import { FormEnd } from "./parts/form-end.tsx";
import { type Moment, momentToDate, NOW } from "./parts/moment.ts";
import { WhenChooser } from "./parts/when-chooser.tsx";
import type { Counting } from "./tally-turn.ts";

export function TallyWhen({ now_ms, open, setAt }: Counting) {
  const [moment, setMoment] = useState<Moment>(NOW);
  const now = new Date(now_ms);
  const date = momentToDate(moment, now);
  const save = () => {
    if (date === undefined) return;
    setAt(date);
    open("keys");
  };
  return (
    <section aria-label={words.title} class="typed">
      <h2>{words.title}</h2>
      <WhenChooser moment={moment} now={now} onChange={setMoment} words={everywhere.when} />
      <FormEnd save={words.save} off={date === undefined} onSave={save} onCancel={() => open("keys")} />
    </section>
  );
}
