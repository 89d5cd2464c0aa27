// Who the parents of a bird can be: written down with it, or worked out by the server from its batch and the pens.
import { useEffect } from "preact/hooks";
import { bird as words } from "../app/words/birds.ts";
import { birdId, birdsOf, type OneBird } from "../book/birds.ts";
import { askFamily, familyTold } from "../state/bird-reports.ts";
import { standing } from "../state/standing.ts";
import { KinTree } from "./kin-bird.tsx";
import { Why } from "./parts/why.tsx";
import { Section } from "./section.tsx";
import { clock, dayWords } from "./told-time.ts";

/** A pen of many hens makes many pairs; the likeliest are shown. */
const MOST_PAIRS = 8;

export function BirdParents({ bird }: { bird: OneBird }) {
  useEffect(() => void askFamily(), [bird.id]);
  const totals = standing.value;
  const answer = familyTold.value;
  const report = answer.kind === "unpaired" ? null : answer.report;
  const told = report?.birds.find((one) => one.bird === bird.id);
  const birds = birdsOf(totals, null);
  const label = (id: string | null) =>
    id ? (birds.get(birdId(totals, id))?.label ?? words.notKnown) : words.notKnown;
  const written = [...(bird.body.sires ?? []), ...(bird.body.dams ?? [])];
  const when = report
    ? `${dayWords(report.computedMs, totals.keeper.zone)}, ${clock(report.computedMs, totals.keeper.zone)}`
    : "";
  const pairs = [...(told?.parents ?? [])].sort((a, b) => b.chance - a.chance);
  return (
    <Section title={words.parents}>
      {written.length > 0 && (
        <>
          <p class="quiet">{words.parentsWritten}</p>
          <p>{written.map((one) => label(one.bird)).join(", ")}</p>
        </>
      )}
      {pairs.length > 0 && (
        <>
          <p class="quiet">{words.parentsSaid(when)}</p>
          <ul class="lines">
            {pairs.slice(0, MOST_PAIRS).map(({ sire, dam, chance }) => (
              <li key={`${sire} ${dam}`}>
                <span>{words.pair(label(sire), label(dam))}</span>
                <span>{words.chance(Math.round(chance * 100))}</span>
              </li>
            ))}
          </ul>
          {pairs.length > MOST_PAIRS && <p class="quiet">{words.morePairs(pairs.length - MOST_PAIRS)}</p>}
          <Why {...words.whyChances} />
        </>
      )}
      {told?.notes.map((note) => (
        <p class="quiet" key={note}>
          {note}
        </p>
      ))}
      {told && (
        <p>
          {told.inbreeding === null
            ? words.inbreedingUnknown
            : words.inbreeding((100 * told.inbreeding).toFixed(1), told.generations.toFixed(1))}
        </p>
      )}
      {told && told.inbreeding !== null && <Why {...words.whyInbreeding} />}
      {report && told && pairs.length > 0 && (
        <>
          <details>
            <summary>{words.forebears}</summary>
            <KinTree birds={report.birds} of={told} />
          </details>
          <div class="acts">
            <a class="press plain" href={`/families/kin/${bird.id}`}>
              {words.kin}
            </a>
          </div>
        </>
      )}
      {!told && written.length === 0 && <p class="quiet">{words.noParents}</p>}
    </Section>
  );
}
