// "Why?" under the rates of eggs: each one's sum with the counts that stand in it.
import { setting as words } from "../app/words/rooms.ts";
import { rateWhy } from "../app/words/why.ts";
import type { Outcome } from "../book/rates.ts";
import { Why } from "./parts/why.tsx";

export type RateMeasure = "fertility" | "hatchOfSet" | "hatchOfFertile";

interface RateWhyProps {
  readonly outcome: Pick<Outcome, RateMeasure>;
  readonly measures: readonly RateMeasure[];
}

export function RateWhy({ outcome, measures }: RateWhyProps) {
  return (
    <Why
      about={rateWhy.about}
      formula={rateWhy.interval}
      inputs={measures.map((measure) => ({
        name: `${words[measure]}: ${rateWhy.formula[measure]}`,
        value: outcome[measure].n === 0 ? words.notYet : words.of(outcome[measure].k, outcome[measure].n),
      }))}
      sources={[{ title: rateWhy.wilson }]}
    >
      <p class="quiet">{rateWhy.leftOut}</p>
    </Why>
  );
}
