// What was written of losses of one batch; missing chicks that are found are put back with the others.
import { useState } from "preact/hooks";
import { losses as words } from "../app/words/losses.ts";
import { machine } from "../app/words/machine.ts";
import type { Lot, Move } from "../book/standing.ts";
import { undo } from "../state/actions.ts";
import { foundAgain } from "../state/broods.ts";
import { onScreen } from "../state/recording.ts";
import { standing } from "../state/standing.ts";
import type { Batch } from "./brood-batch-view.ts";
import { Press } from "./parts/press.tsx";
import { dayWords } from "./told-time.ts";

const YOUNG = ["hatched", "brooding", "growing", "flock"];
const GONE = ["died", "culled", "unaccounted"];

const isLoss = ({ source, target }: Move) => YOUNG.includes(source) && GONE.includes(target);
const isFound = ({ source, target }: Move) => source === "unaccounted" && YOUNG.includes(target);

/** The last first; taken back in the book. */
export function Lost({ batch }: { batch: Batch }) {
  const { lot, perhaps, families, tied } = batch;
  const { zone } = standing.value.keeper;
  const foundOfOne = tied.among.filter((move) => isFound(move) && move.among.includes(lot.id));
  const told = [...lot.moves.filter((move) => isLoss(move) || isFound(move)), ...perhaps, ...foundOfOne];
  told.sort((a, b) => b.atMs - a.atMs);
  return (
    <>
      <Found batch={batch} />
      {told.length === 0 && <p class="section-note">{words.none}</p>}
      <ul class="lines">
        {told.map(({ entry, lot: known, target, source, n, cause, atMs }) => (
          <li key={`${entry} ${source} ${target}`}>
            <span>
              {source === "unaccounted"
                ? words.foundLine(n)
                : words.line(n, words.after[target as "died"], cause ? (words.causes[cause] ?? "") : "")}
              {known === null && ` (${words.ofOne(families)})`}
            </span>
            <span class="quiet">{dayWords(atMs, zone)}</span>
          </li>
        ))}
      </ul>
    </>
  );
}

/** One tap for each chick that is found again, of this batch or of one of those it is tied to; taken back as fast. */
function Found({ batch: { lot, tied, families } }: { batch: Batch }) {
  const [done, setDone] = useState<readonly string[]>([]);
  const ofOne = missingOfOne(lot, tied.among);
  if (lot.missing === 0 && ofOne === null && done.length === 0) return null;
  const put = (whose: { lot: string } | { among: string[] }, lost: Move | undefined) => {
    const entries = onScreen(() => foundAgain(whose, stageFor(lot, lost)));
    setDone((before) => [...before, ...entries.map(({ id }) => id)]);
  };
  const last = done.at(-1);
  return (
    <div class="acts">
      {lot.missing > 0 && (
        <Press
          kind="firm"
          counts
          onPress={() =>
            put({ lot: lot.id }, lot.moves.filter((move) => isLoss(move) && isMissing(move)).at(-1))
          }
        >
          {words.found}
        </Press>
      )}
      {ofOne && (
        <Press kind="firm" counts onPress={() => put({ among: [...ofOne.among] }, ofOne)}>
          {words.foundOfOne(families)}
        </Press>
      )}
      {last !== undefined && (
        <Press
          kind="plain"
          name={`${machine.undo}: ${words.foundLine(1)}`}
          onPress={() => {
            void undo(last);
            setDone((before) => before.slice(0, -1));
          }}
        >
          {machine.undo}
        </Press>
      )}
    </div>
  );
}

const isMissing = ({ target }: Move) => target === "unaccounted";

/** The last loss from sight of one of several batches that is not made good; null where there is none. */
function missingOfOne(lot: Lot, among: readonly Move[]): Move | null {
  const own = among.filter((move) => move.among.includes(lot.id));
  const lost = own.filter((move) => isLoss(move) && isMissing(move));
  const sum = (moves: readonly Move[]) => moves.reduce((n, move) => n + move.n, 0);
  return sum(lost) > sum(own.filter(isFound)) ? (lost.at(-1) ?? null) : null;
}

/** Back where it was lost, or with the others where those have moved on. */
function stageFor({ stages }: Lot, lost: Move | undefined): string {
  const was = lost?.source ?? "brooding";
  const now = [...YOUNG].reverse().find((stage) => (stages.get(stage) ?? 0) > 0) ?? was;
  return (stages.get(was) ?? 0) > 0 ? was : now;
}
