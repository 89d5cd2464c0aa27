// The rates of a setting as far as they are known, all batches together and each by itself.

import { setting as words } from "../app/words/rooms.ts";
import { ownWords } from "../book/own-words.ts";
import { lotOutcome, type Outcome, settingOutcome } from "../book/rates.ts";
import { runs } from "../book/standing.ts";
import { standing } from "../state/standing.ts";
import { batchNames } from "./names.ts";
import { RateLine } from "./rate-line.tsx";
import { RateWhy } from "./rate-why.tsx";
import type { SettingView } from "./setting-view.ts";

const MEASURES = ["fertility", "hatchOfFertile", "hatchOfSet"] as const;

export function SettingRates({ view, now_ms }: { view: SettingView; now_ms: number }) {
  const { setting, batches } = view;
  const running = runs(setting);
  const whole = settingOutcome(setting, batches, now_ms);
  if (running && whole.fertility.n === 0 && whole.hatchOfSet.k === 0) return null;
  const names = batchNames(standing.value, batches);
  const hatching = view.hatched > 0 || !running;
  return (
    <section class="section">
      <h2>{running ? words.rates : words.ratesFinal}</h2>
      <Measures outcome={whole} hatching={hatching} />
      {batches.length > 1 && (
        <details>
          <summary>{words.eachBatch}</summary>
          {batches.map((lot) => (
            <div key={lot.id} class="each-rate">
              <h3>{names.get(lot.id)}</h3>
              <Measures outcome={lotOutcome(lot, setting, now_ms)} hatching={hatching} />
            </div>
          ))}
        </details>
      )}
      <RateWhy outcome={whole} measures={MEASURES.filter((measure) => hatching || measure === "fertility")} />
    </section>
  );
}

function Measures({ outcome, hatching }: { outcome: Outcome; hatching: boolean }) {
  return (
    <dl class="measures">
      {MEASURES.filter((measure) => hatching || measure === "fertility").map((measure) => {
        const { basis, open } = outcome[measure];
        const notes = [
          measure === "fertility" && basis ? words.basis[basis] : null,
          open ? words.openRate(open, ownWords(standing.value.keeper.words)) : null,
        ].filter((note) => note !== null);
        return (
          <RateLine key={measure} label={words[measure]} rate={outcome[measure]} note={notes.join(", ")} />
        );
      })}
    </dl>
  );
}
