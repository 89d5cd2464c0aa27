// Eggs that were taken out by mistake, or that were missing and are found, go back among the others.
import { everywhere } from "../app/words/everywhere.ts";
import { regionOf } from "../app/words/region.ts";
import { stageWords } from "../app/words/stages.ts";
import { back as words } from "../app/words/tally-panels.ts";
import { MISSING, mayMove, OUT_STAGES, START } from "../book/stages.ts";
import { inStage, type Lot } from "../book/standing.ts";
import { standing } from "../state/standing.ts";
import { putBack } from "../state/tally.ts";
import { Press } from "./parts/press.tsx";
import type { Counting } from "./tally-turn.ts";

export interface OutOf {
  readonly stage: string;
  readonly n: number;
}

/** Eggs of a batch that may go back into the machine, by where they are. Missing chicks are no eggs. */
export const outOf = (lot: Lot): OutOf[] =>
  [...OUT_STAGES, MISSING]
    .filter((stage) => mayMove(stage, START))
    .map((stage) => ({ stage, n: inStage(lot, stage) - (stage === MISSING ? lot.missing : 0) }))
    .filter(({ n }) => n > 0);

/** With the others: in the hatcher, once they are there. */
export const backInto = (lot: Lot): "set" | "locked" =>
  inStage(lot, "locked") > 0 && inStage(lot, "set") <= 0 ? "locked" : "set";

export function TallyBack({ shown, name, day, at, open }: Counting) {
  if (!shown) return null;
  const region = regionOf(standing.value.keeper.region);
  const out = outOf(shown);
  return (
    <section aria-label={words.title(name)} class="typed">
      <h2>{words.title(name)}</h2>
      <p class="quiet">{out.length > 0 ? words.hint : words.none}</p>
      <div class="acts">
        {out.map(({ stage, n }) => (
          <Press
            key={stage}
            onPress={() => {
              void putBack({ lot: shown.id, from: [stage], into: backInto(shown), day, at });
              open("keys");
            }}
          >
            {words.one(stageWords(stage, region).after, n)}
          </Press>
        ))}
        <Press kind="plain" onPress={() => open("keys")}>
          {everywhere.back}
        </Press>
      </div>
    </section>
  );
}
