// A batch is through: what it says, then on to the next one, back to those one was not sure of, or done.
import { safety } from "../app/words/safety.ts";
import { end as words } from "../app/words/tally-panels.ts";
import { lockDown } from "../state/holding.ts";
import { standing } from "../state/standing.ts";
import { goTo } from "../state/whereabouts.ts";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { inHand } from "./tally-plan.ts";
import { TallyRates } from "./tally-rates.tsx";
import type { Counting } from "./tally-turn.ts";
import { tallyBatch } from "./tally-view.ts";

export function TallyEnd({ view, what, day, shown, names, everyLeft, acts, at, now_ms, choose }: Counting) {
  const next =
    everyLeft > 0 ? view.batches.find((lot) => inHand(what, tallyBatch(lot, what, day)) > 0) : undefined;
  const page = `/setting/${view.setting.id}`;
  const lock = what === "lockdown" && view.setting.lockedAtMs === null && everyLeft === 0 && view.inShell > 0;
  const done = next || everyLeft > 0 ? words.allDone[what] : words.everyDone[what];
  return (
    <section class="typed" aria-label={words.allDone[what]}>
      <div role="status">
        <h2>{done}</h2>
      </div>
      <TallyRates view={view} what={what} lot={shown} now_ms={now_ms} why />
      {lock && <Notice>{safety.mains}</Notice>}
      <div class="acts">
        {acts.unsure > 0 && (
          <Press kind="firm" onPress={acts.lookAgain}>
            {words.unsureAgain(acts.unsure)}
          </Press>
        )}
        {next && (
          <Press kind="main" onPress={() => choose(next.id)}>
            {words.next(names.get(next.id) ?? "")}
          </Press>
        )}
        {lock && <LockDown setting={view.setting.id} place={view.setting.place} page={page} at={at} />}
        {!next && !lock && (
          <a class="press main" href={page}>
            {words.finish[what]}
          </a>
        )}
      </div>
    </section>
  );
}

interface LockDownProps {
  readonly setting: string;
  readonly place: string;
  readonly page: string;
  /** When it was done, where that was not now. */
  readonly at: Date | null;
}

/** In the machine the eggs were in, or in a hatcher of their own. */
function LockDown({ setting, place, page, at }: LockDownProps) {
  const hatchers = [...standing.value.places].filter(([id, { role }]) => role === "hatcher" && id !== place);
  const lock = (hatcher?: string) => {
    void lockDown(setting, hatcher, at ?? undefined);
    goTo(page);
  };
  return (
    <>
      <Press kind="main" onPress={() => lock()}>
        {words.lockFirst}
      </Press>
      {hatchers.map(([id, { name }]) => (
        <Press key={id} kind="firm" onPress={() => lock(id)}>
          {words.lockIn(name)}
        </Press>
      ))}
    </>
  );
}
