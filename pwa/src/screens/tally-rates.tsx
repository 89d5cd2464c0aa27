// What the eggs judged so far say: the rate this tally is about, with the bar in which the true one lies.

import { setting as words } from "../app/words/rooms.ts";
import { ownWords } from "../book/own-words.ts";
import { lotOutcome, settingOutcome } from "../book/rates.ts";
import type { Lot } from "../book/standing.ts";
import { standing } from "../state/standing.ts";
import { RateLine } from "./rate-line.tsx";
import { type RateMeasure, RateWhy } from "./rate-why.tsx";
import type { TallyWhat } from "./tally-plan.ts";
import type { TallyView } from "./tally-view.ts";

const MEASURES: Readonly<Record<TallyWhat, readonly RateMeasure[]>> = {
  candle: ["fertility"],
  lockdown: ["fertility"],
  hatch: ["hatchOfFertile", "hatchOfSet"],
  open: ["fertility", "hatchOfFertile"],
};

interface TallyRatesProps {
  readonly view: TallyView;
  readonly what: TallyWhat;
  /** Null: all batches together. */
  readonly lot: Lot | null;
  readonly now_ms: number;
  readonly why?: boolean;
}

export function TallyRates({ view, what, lot, now_ms, why = false }: TallyRatesProps) {
  const { setting, batches } = view;
  const outcome = lot ? lotOutcome(lot, setting, now_ms) : settingOutcome(setting, batches, now_ms);
  const measures = MEASURES[what].filter((measure) => outcome[measure].n > 0);
  if (measures.length === 0) return null;
  return (
    <>
      <dl class="measures">
        {measures.map((measure) => {
          const { basis, open } = outcome[measure];
          const notes = [
            measure === "fertility" && basis ? words.basis[basis] : null,
            open ? words.openRate(open, ownWords(standing.value.keeper.words)) : null,
          ];
          return (
            <RateLine
              key={measure}
              label={words[measure]}
              rate={outcome[measure]}
              note={notes.filter((note) => note !== null).join(", ")}
            />
          );
        })}
      </dl>
      {why && <RateWhy outcome={outcome} measures={measures} />}
    </>
  );
}
