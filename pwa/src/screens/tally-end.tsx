// A batch is through: on to the next one, back to those one was not sure of, or done.
import { tally as words } from "../app/words/tally.ts";
import { lockDown } from "../state/actions.ts";
import { goTo } from "../state/whereabouts.ts";
import { Press } from "./parts/press.tsx";
import { inHand, type TallyWhat } from "./tally-plan.ts";
import { type TallyView, tallyBatch } from "./tally-view.ts";

interface TallyEndProps {
  readonly view: TallyView;
  readonly what: TallyWhat;
  readonly day: number;
  readonly names: ReadonlyMap<string, string>;
  readonly everyLeft: number;
  readonly unsure: number;
  readonly onNext: (lot: string) => void;
  readonly onUnsure: () => void;
}

export function TallyEnd({ view, what, day, names, everyLeft, unsure, onNext, onUnsure }: TallyEndProps) {
  const next = view.batches.find((lot) => inHand(what, tallyBatch(lot, what, day)) > 0);
  const page = `/setting/${view.setting.id}`;
  const lock = what === "lockdown" && view.setting.lockedAtMs === null && everyLeft === 0 && view.inShell > 0;
  return (
    <section class="typed" aria-label={words.allDone[what]}>
      <div role="status">
        <h2>{next || everyLeft > 0 ? words.allDone[what] : words.everyDone[what]}</h2>
      </div>
      <div class="acts">
        {unsure > 0 && (
          <Press kind="firm" onPress={onUnsure}>
            {words.unsureAgain(unsure)}
          </Press>
        )}
        {next && (
          <Press kind="main" onPress={() => onNext(next.id)}>
            {words.next(names.get(next.id) ?? "")}
          </Press>
        )}
        {lock && (
          <Press
            kind="main"
            onPress={() => {
              void lockDown(view.setting.id);
              goTo(page);
            }}
          >
            {words.lockFirst}
          </Press>
        )}
        {!next && !lock && (
          <a class="press main" href={page}>
            {words.finish[what]}
          </a>
        )}
      </div>
    </section>
  );
}
