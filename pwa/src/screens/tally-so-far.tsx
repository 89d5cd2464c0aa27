// What came so far, batch by batch: counts, eggs to look at again, and what they say.
import { everywhere } from "../app/words/everywhere.ts";
import { regionOf } from "../app/words/region.ts";
import { stageWords } from "../app/words/stages.ts";
import { tally } from "../app/words/tally.ts";
import { end, soFar as words } from "../app/words/tally-panels.ts";
import { ownWords } from "../book/own-words.ts";
import type { Lot } from "../book/standing.ts";
import { undo } from "../state/actions.ts";
import { standing } from "../state/standing.ts";
import { Press } from "./parts/press.tsx";
import { answered, inHand, KEYS, OTHER_KEYS, type TallyWhat } from "./tally-plan.ts";
import { TallyRates } from "./tally-rates.tsx";
import { answerWords, type Counting } from "./tally-turn.ts";
import { tallyBatch } from "./tally-view.ts";

export function TallySoFar({ view, what, day, names, everyLeft, now_ms, open, choose }: Counting) {
  const region = regionOf(standing.value.keeper.region);
  const again = (lot: Lot) => {
    const looks = lot.looks.filter((look) => look.day === day && look.what === "candled" && look.unsure > 0);
    void undo(...looks.map((look) => look.entry));
    choose(lot.id);
  };
  return (
    <section aria-label={words.title} class="typed">
      <h2>{words.title}</h2>
      <ul class="rows">
        {view.batches.map((lot) => {
          const batch = tallyBatch(lot, what, day);
          const left = Math.min(everyLeft, inHand(what, batch));
          return (
            <li key={lot.id}>
              <div class="head">
                <h3>{names.get(lot.id)}</h3>
                <span class="quiet">{left > 0 ? words.hand(left) : tally.tabDone}</span>
              </div>
              <p>{countsOf(what, lot, day) || words.nothing}</p>
              {[...lot.open].map(([stage, n]) => (
                <p class="quiet small" key={stage}>
                  {words.possible(n, stageWords(stage, region).after, ownWords(standing.value.keeper.words))}
                </p>
              ))}
              {batch.unsure > 0 && (
                <div class="acts">
                  <Press kind="plain" onPress={() => again(lot)}>
                    {end.unsureAgain(batch.unsure)}
                  </Press>
                </div>
              )}
              <TallyRates view={view} what={what} lot={lot} now_ms={now_ms} />
            </li>
          );
        })}
      </ul>
      <h3>{words.together}</h3>
      <TallyRates view={view} what={what} lot={null} now_ms={now_ms} why />
      <div class="acts">
        <Press kind="main" onPress={() => open("keys")}>
          {everywhere.back}
        </Press>
      </div>
    </section>
  );
}

/** "8 live, 1 clear, 1 not sure". */
function countsOf(what: TallyWhat, lot: Lot, day: number): string {
  const batch = tallyBatch(lot, what, day);
  return [...KEYS[what], ...OTHER_KEYS[what]]
    .map((key) => ({ word: answerWords(key.id).toLowerCase(), n: answered(key, batch) }))
    .filter(({ n }) => n > 0)
    .map(({ word, n }) => tally.part(n, word))
    .join(", ");
}
