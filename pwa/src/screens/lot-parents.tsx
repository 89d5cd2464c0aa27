// Who the parents of a batch can be, from the server's last answer: each chick that is kept brings them with it.
import { useEffect } from "preact/hooks";
import { bird as birdWords } from "../app/words/birds.ts";
import { choosing as words } from "../app/words/choosing.ts";
import { askLotParents, lotParents } from "../state/lot-parents.ts";
import { standing } from "../state/standing.ts";
import { Why } from "./parts/why.tsx";
import { Section } from "./section.tsx";
import { clock, dayWords } from "./told-time.ts";

const MOST_PAIRS = 6;

export function LotParents({ lot }: { lot: string }) {
  useEffect(() => void askLotParents(lot), [lot]);
  const answer = lotParents.value;
  const report = answer.kind === "unpaired" ? null : answer.report;
  const told = report?.lot === lot ? report : null;
  const { zone } = standing.value.keeper;
  return (
    <Section title={words.parentsTitle}>
      <p class="quiet">{words.parents}</p>
      {told && told.pairs.length > 0 && (
        <>
          <p class="quiet">
            {birdWords.parentsSaid(`${dayWords(told.computedMs, zone)}, ${clock(told.computedMs, zone)}`)}
          </p>
          <ul class="lines">
            {told.pairs.slice(0, MOST_PAIRS).map(({ sire, dam, chance }) => (
              <li key={`${sire} ${dam} ${chance}`}>
                <span>{birdWords.pair(sire ?? birdWords.notKnown, dam ?? birdWords.notKnown)}</span>
                <span>{birdWords.chance(Math.round(chance * 100))}</span>
              </li>
            ))}
          </ul>
          {told.pairs.length > MOST_PAIRS && (
            <p class="quiet">{birdWords.morePairs(told.pairs.length - MOST_PAIRS)}</p>
          )}
          <Why {...birdWords.whyChances} />
        </>
      )}
      {told?.notes.map((note) => (
        <p class="quiet" key={note}>
          {note}
        </p>
      ))}
    </Section>
  );
}
