// The birds of one batch and sex weighed that day: how many, their mean, how even; and the last one, to take back.
import { weighing as words } from "../app/words/weights.ts";
import type { OneBird } from "../book/birds.ts";
import type { Weight } from "../book/weights.ts";
import { undo } from "../state/actions.ts";
import { standing } from "../state/standing.ts";
import { EVEN_WITHIN, evenness } from "../trade/growth.ts";
import { sourceTitle } from "../trade/sources.ts";
import { massUnit } from "./measures.ts";
import { batchName } from "./names.ts";
import { BigCount } from "./parts/big-count.tsx";
import { Undo } from "./parts/undo.tsx";
import { Why } from "./parts/why.tsx";
import { birdMassText } from "./scale-words.ts";

interface WeighSoFarProps {
  readonly group: readonly Weight[];
  readonly last: Weight | null;
  readonly birds: ReadonlyMap<string, OneBird>;
}

export function WeighSoFar({ group, last, birds }: WeighSoFarProps) {
  const totals = standing.value;
  const unit = massUnit(totals);
  const even = evenness(group.map((one) => one.massG));
  return (
    <>
      {even && (
        <>
          <BigCount count={even.n} under={words.running(even.n)} />
          <ul class="lines">
            <li>
              <span>{words.mean}</span>
              <b>{birdMassText(even.meanG, unit)}</b>
            </li>
            {even.cvPct !== null && (
              <>
                <li>
                  <span>{words.cv}</span>
                  <b>{words.cvText(even.cvPct.toFixed(1))}</b>
                </li>
                <li>
                  <span>{words.even}</span>
                  <b>{words.evenText(even.within, even.n)}</b>
                </li>
              </>
            )}
          </ul>
          <Why
            about={words.cv}
            formula={words.formula}
            sources={[{ title: sourceTitle(EVEN_WITHIN.source) ?? EVEN_WITHIN.source, status: "seen" }]}
          />
        </>
      )}
      {last && (
        <div class="acts">
          <Undo word={words.undo} last={lineOf(last)} onUndo={() => void undo(last.entry)} />
        </div>
      )}
    </>
  );

  function lineOf({ bird, lot, massG }: Weight): string {
    const who = bird ? birds.get(bird)?.label : undefined;
    return words.lastLine(
      who ?? words.oneOf(batchName(totals, totals.lots.get(lot))),
      birdMassText(massG, unit),
    );
  }
}
