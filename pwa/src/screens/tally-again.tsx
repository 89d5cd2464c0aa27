// "Count again": the eggs in the tray by hand beside what the book says. Nothing is changed until the keeper says so.
import { useState } from "preact/hooks";
import { everywhere } from "../app/words/everywhere.ts";
import { tally as words } from "../app/words/tally.ts";
import type { Lot } from "../book/standing.ts";
import { inStage } from "../book/standing.ts";
import { record } from "../state/actions.ts";
import { countAgain, countedByHand } from "../state/tally.ts";
import { Press } from "./parts/press.tsx";
import { Stepper } from "./parts/stepper.tsx";
import type { TallyWhat } from "./tally-plan.ts";

interface TallyAgainProps {
  readonly what: TallyWhat;
  readonly lot: Lot;
  readonly day: number;
  readonly onClose: () => void;
}

export function TallyAgain({ what, lot, day, onClose }: TallyAgainProps) {
  const stage = what === "hatch" && inStage(lot, "locked") > 0 ? "locked" : "set";
  const held = Math.max(0, inStage(lot, stage));
  const [n, setN] = useState(held);
  const [count, setCount] = useState<{
    readonly id: string;
    readonly n: number;
    readonly held: number;
  } | null>(null);
  const save = async () => {
    await countAgain(lot.id, what === "hatch" ? "hatch" : "candled", day);
    const entry = await countedByHand(lot.id, stage, n);
    setCount({ id: entry.id, n, held });
  };
  const missing = (fewer: number, settles: string) => {
    const moves = [{ lot: lot.id, from: stage, to: "unaccounted", n: fewer }];
    void record("moved", { moves, why: "lost", day, settles });
    onClose();
  };
  if (count) {
    const fewer = count.held - count.n;
    return (
      <section aria-label={words.againTitle} class="typed">
        <p role="status">{fewer === 0 ? words.agree(count.n) : words.differ(count.n, count.held)}</p>
        <div class="acts">
          {fewer > 0 && (
            <Press kind="firm" onPress={() => missing(fewer, count.id)}>
              {words.fewer(fewer)}
            </Press>
          )}
          <Press kind={fewer > 0 ? "plain" : "main"} onPress={onClose}>
            {fewer === 0 ? everywhere.done : words.fewerKeep}
          </Press>
        </div>
      </section>
    );
  }
  return (
    <section aria-label={words.againTitle} class="typed">
      <h2>{words.againTitle}</h2>
      <p class="quiet">{words.againHint(held)}</p>
      <Stepper label={words.againTitle} value={n} most={20_000} onChange={setN} words={everywhere} />
      <div class="acts">
        <Press kind="plain" onPress={onClose}>
          {everywhere.cancel}
        </Press>
        <Press kind="main" onPress={() => void save()}>
          {words.againSave}
        </Press>
      </div>
    </section>
  );
}
