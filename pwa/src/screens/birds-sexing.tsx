// Birds that were kept before anybody could tell: one tap each says what they are.
import { bird as birdWords, birds as words } from "../app/words/birds.ts";
import { sexWord } from "../app/words/sexes.ts";
import type { OneBird } from "../book/birds.ts";
import { changeBird } from "../state/birds.ts";
import { standing } from "../state/standing.ts";
import { ageTold, familyOfBird, regionIn, speciesOfBird } from "./bird-view.ts";
import { useNow } from "./now.ts";
import { Press } from "./parts/press.tsx";
import { dayKey } from "./told-time.ts";

const SEXES = ["male", "female"] as const;

export function BirdsSexing({ birds }: { birds: readonly OneBird[] }) {
  const totals = standing.value;
  const today = dayKey(useNow(), totals.keeper.zone);
  return (
    <details>
      <summary>{words.sexing(birds.length)}</summary>
      <p class="quiet">{words.sexingHint}</p>
      <ul class="rows">
        {birds.map((one) => (
          <li key={one.id}>
            <p>
              <b>{one.label}</b>{" "}
              <span class="quiet">
                {[familyOfBird(totals, one), ageTold(one.body.hatched_on, today)].filter(Boolean).join(", ")}
              </span>
            </p>
            <div class="acts">
              {SEXES.map((sex) => {
                const word = sexWord(sex, speciesOfBird(totals, one), regionIn(totals));
                return (
                  <Press
                    key={sex}
                    kind="plain"
                    name={words.isA(word, one.label)}
                    counts
                    onPress={() => void changeBird(one.id, { sex })}
                  >
                    {`${birdWords.sexes[sex]}: ${word}`}
                  </Press>
                );
              })}
            </div>
          </li>
        ))}
      </ul>
    </details>
  );
}
