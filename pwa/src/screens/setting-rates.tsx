// The rates of a setting as far as they are known, all batches together and each by itself.
import { common } from "../app/words/common.ts";
import { setting as words } from "../app/words/rooms.ts";
import { runs } from "../book/standing.ts";
import { standing } from "../state/standing.ts";
import { batchNames } from "./names.ts";
import { RateLine } from "./rate-line.tsx";
import { type BatchCounts, batchCounts, summed } from "./rates.ts";
import type { SettingView } from "./setting-view.ts";

const MEASURES = ["fertility", "hatchOfFertile", "hatchOfSet"] as const;

export function SettingRates({ view }: { view: SettingView }) {
  const counts = view.batches.map((lot) => ({ lot, counts: batchCounts(lot) }));
  const running = runs(view.setting);
  const anything = counts.some(({ counts: one }) => one.fertility.n > 0 || one.hatchOfSet.k > 0);
  if (!anything && running) return null;
  const names = batchNames(standing.value, view.batches);
  return (
    <section class="section">
      <h2>{running ? words.rates : words.ratesFinal}</h2>
      <Measures counts={counts.map((one) => one.counts)} hatching={view.hatched > 0 || !running} />
      {counts.length > 1 && (
        <details>
          <summary>{words.eachBatch}</summary>
          {counts.map(({ lot, counts: one }) => (
            <div key={lot.id} class="each-rate">
              <h3>{names.get(lot.id)}</h3>
              <Measures counts={[one]} hatching={view.hatched > 0 || !running} />
            </div>
          ))}
        </details>
      )}
      <details>
        <summary>{common.why}</summary>
        <p class="quiet">{words.ratesWhy}</p>
      </details>
    </section>
  );
}

function Measures({ counts, hatching }: { counts: readonly BatchCounts[]; hatching: boolean }) {
  const bases = new Set(counts.map((one) => one.basis).filter((basis) => basis !== null));
  const basis = bases.size > 1 ? words.basis.mixed : words.basis[[...bases][0] ?? "none"];
  return (
    <dl class="measures">
      {MEASURES.filter((measure) => hatching || measure === "fertility").map((measure) => (
        <RateLine
          key={measure}
          label={words[measure]}
          rate={summed(counts.map((one) => one[measure]))}
          {...(measure === "fertility" ? { note: basis } : {})}
        />
      ))}
    </dl>
  );
}
