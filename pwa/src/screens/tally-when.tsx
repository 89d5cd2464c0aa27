// A tally that was not now: what is tapped from here on is written for that time.
import { useState } from "preact/hooks";
import { everywhere } from "../app/words/everywhere.ts";
import { when as words } from "../app/words/tally-panels.ts";
import { type Moment, momentToDate, NOW } from "./parts/moment.ts";
import { Press } from "./parts/press.tsx";
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
      <div class="acts">
        <Press kind="plain" onPress={() => open("keys")}>
          {everywhere.cancel}
        </Press>
        <Press kind="main" off={date === undefined} onPress={save}>
          {words.save}
        </Press>
      </div>
    </section>
  );
}
