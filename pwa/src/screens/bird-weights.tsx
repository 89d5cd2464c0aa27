// What one bird weighed, the latest first.
import { bird as words } from "../app/words/birds.ts";
import { birdsOf, type OneBird } from "../book/birds.ts";
import { weightsOf } from "../book/weights.ts";
import { standing } from "../state/standing.ts";
import { ageTold } from "./bird-view.ts";
import { massUnit } from "./measures.ts";
import { birdMassText } from "./scale-words.ts";
import { Section } from "./section.tsx";
import { dayTold } from "./told-day.ts";

export function BirdWeights({ bird }: { bird: OneBird }) {
  const totals = standing.value;
  const unit = massUnit(totals);
  const own = weightsOf(totals, birdsOf(totals, null))
    .filter((one) => one.bird === bird.id)
    .sort((a, b) => (a.on < b.on ? 1 : -1));
  return (
    <Section title={words.weights}>
      {own.length === 0 && <p class="quiet">{words.noWeights}</p>}
      <ul class="lines">
        {own.map(({ entry, on, massG, sensible }) => (
          <li key={entry}>
            <span>{words.weighedAt(dayTold(on), ageTold(bird.body.hatched_on, on))}</span>
            <span>
              {birdMassText(massG, unit)}
              {!sensible && <span class="quiet">{` ${words.oddWeight}`}</span>}
            </span>
          </li>
        ))}
      </ul>
    </Section>
  );
}
