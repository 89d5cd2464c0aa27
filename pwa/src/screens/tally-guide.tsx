// Which stage had it reached? Pictures to compare with, or the days it had lived, from which the stage follows.
import { useState } from "preact/hooks";
import { everywhere } from "../app/words/everywhere.ts";
import { regionOf } from "../app/words/region.ts";
import { speciesTerms } from "../app/words/species.ts";
import { stageWords } from "../app/words/stages.ts";
import { guide as words } from "../app/words/tally-panels.ts";
import { standing } from "../state/standing.ts";
import { clueAt, deathClass, periodDays } from "../trade/breakout.ts";
import { sourceTitle } from "../trade/sources.ts";
import { inASentence } from "../trade/species.ts";
import { OpenedEgg, type OpenedStage } from "./parts/opened-egg.tsx";
import { Press } from "./parts/press.tsx";
import { Stepper } from "./parts/stepper.tsx";
import { Why } from "./parts/why.tsx";
import type { Counting } from "./tally-turn.ts";

const STAGES: readonly OpenedStage[] = [
  "infertile",
  "dead_early",
  "dead_mid",
  "dead_late",
  "dead_internal_pip",
  "dead_external_pip",
];
const PIPPED: readonly OpenedStage[] = ["dead_internal_pip", "dead_external_pip"];

export function TallyGuide({ view, acts, open }: Counting) {
  const { species } = view.setting;
  const [day, setDay] = useState(0);
  const region = regionOf(standing.value.keeper.region);
  const by_day = day > 0 ? deathClass(species, day) : null;
  const clue = day > 0 ? clueAt(species, day) : null;
  const write = (stage: OpenedStage) => {
    // Whether it had pipped is seen; the age of an infertile egg is none.
    const aged = day > 0 && (stage === by_day || PIPPED.includes(stage));
    acts.answer({ does: "move", to: stage, ...(aged ? { age_days: day } : {}) });
    open("keys");
  };
  return (
    <section aria-label={words.title} class="typed">
      <h2>{words.title}</h2>
      <p class="quiet">{words.hint}</p>
      <ul class="pictures">
        {STAGES.map((stage) => {
          const { button, seen } = stageWords(stage, region);
          return (
            <li key={stage}>
              <Press class="picture" kind={stage === by_day ? "main" : "firm"} onPress={() => write(stage)}>
                <OpenedEgg stage={stage} />
                <span>
                  {button}
                  <span class="n">{seen}</span>
                </span>
              </Press>
            </li>
          );
        })}
      </ul>
      <div class="field">
        <span class="label">{words.day}</span>
        <Stepper
          label={words.day}
          value={day}
          most={periodDays(species)}
          onChange={setDay}
          words={everywhere}
        />
      </div>
      <p role="status">
        {by_day
          ? `${words.byDay(day, stageWords(by_day, region).button)}. ${clue?.seen ?? ""}`
          : words.unsure}
      </p>
      {clue && (
        <Why
          about={words.clueAbout}
          formula={words.clueFormula(inASentence(speciesTerms(species).name))}
          sources={[{ title: sourceTitle(clue.source) ?? clue.source, status: "memory" }]}
        >
          <p class="quiet">{words.classFormula}</p>
        </Why>
      )}
      <div class="acts">
        {by_day && (
          <Press kind="main" onPress={() => write(by_day)}>
            {words.write(stageWords(by_day, region).button, day)}
          </Press>
        )}
        <Press kind="plain" onPress={() => open("keys")}>
          {everywhere.back}
        </Press>
      </div>
    </section>
  );
}
