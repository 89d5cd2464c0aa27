// "Count again": the eggs in the tray by hand beside what the book says. Nothing is changed until the keeper says so.
import { useState } from "preact/hooks";
import { everywhere } from "../app/words/everywhere.ts";
import { regionOf } from "../app/words/region.ts";
import { stageWords } from "../app/words/stages.ts";
import { again as words } from "../app/words/tally-panels.ts";
import { ownWords } from "../book/own-words.ts";
import { inStage, type Lot } from "../book/standing.ts";
import { onScreen } from "../state/recording.ts";
import { standing } from "../state/standing.ts";
import { countAgain, countedByHand, putBack, take } from "../state/tally.ts";
import { FormEnd } from "./parts/form-end.tsx";
import { Press } from "./parts/press.tsx";
import { Stepper } from "./parts/stepper.tsx";
import { outOf } from "./tally-back.tsx";
import type { TallyWhat } from "./tally-plan.ts";
import type { Counting } from "./tally-turn.ts";

/** What may have become of eggs that are not in the tray, the plain answer first. */
const BECAME = ["unaccounted", "cracked", "taken", "clear"] as const;

/** The eggs a tally counts lie in one machine. */
function stageOf(what: TallyWhat, lot: Lot): "set" | "locked" {
  const [first, second] = what === "hatch" ? (["locked", "set"] as const) : (["set", "locked"] as const);
  return inStage(lot, first) > 0 || inStage(lot, second) <= 0 || what === "lockdown" ? first : second;
}

interface Count {
  readonly id: string;
  readonly n: number;
  readonly held: number;
}

export function TallyAgain({ what, shown: lot, day, open }: Counting) {
  const stage = lot ? stageOf(what, lot) : "set";
  const held = lot ? Math.max(0, inStage(lot, stage)) : 0;
  const [n, setN] = useState(held);
  const [count, setCount] = useState<Count | null>(null);
  if (!lot || what === "open") return null;
  const save = () => {
    // At lockdown nothing is looked at: a candling of the same day stands.
    if (what !== "lockdown") void countAgain(lot.id, what === "hatch" ? "hatch" : "candled", day);
    const [entry] = onScreen(() => countedByHand(lot.id, stage, n));
    if (entry) setCount({ id: entry.id, n, held });
  };
  if (count)
    return <Difference lot={lot} stage={stage} count={count} day={day} onClose={() => open("keys")} />;
  return (
    <section aria-label={words.title} class="typed">
      <h2>{words.title}</h2>
      <p class="quiet">{words.hint[what](held)}</p>
      <Stepper label={words.title} value={n} most={20_000} onChange={setN} words={everywhere} />
      <FormEnd save={words.save} onSave={save} onCancel={() => open("keys")} />
    </section>
  );
}

interface DifferenceProps {
  readonly lot: Lot;
  readonly stage: "set" | "locked";
  readonly count: Count;
  readonly day: number;
  readonly onClose: () => void;
}

/** The ways to settle it, each a move that names the count. */
function Difference({ lot, stage, count, day, onClose }: DifferenceProps) {
  const region = regionOf(standing.value.keeper.region);
  const after = (code: string) => stageWords(code, region).after;
  const fewer = count.held - count.n;
  const more = -fewer;
  const about = { lot: lot.id, n: Math.abs(fewer), day, settles: count.id };
  const sources = more > 0 ? outOf(lot).filter(({ n }) => n >= more) : [];
  const settle = (writing: Promise<unknown>) => {
    writing.catch(() => undefined);
    onClose();
  };
  return (
    <section aria-label={words.title} class="typed">
      <p role="status">{fewer === 0 ? words.agree(count.n) : words.differ(count.n, count.held)}</p>
      {more > 0 && sources.length === 0 && (
        <p class="quiet">{words.noneToPutBack(ownWords(standing.value.keeper.words))}</p>
      )}
      <div class="acts">
        {fewer > 0 &&
          BECAME.map((to) => (
            <Press key={to} onPress={() => settle(take({ ...about, from: [stage], to }))}>
              {words.fewer(fewer, after(to))}
            </Press>
          ))}
        {sources.map(({ stage: from }) => (
          <Press key={from} onPress={() => settle(putBack({ ...about, from: [from], into: stage }))}>
            {words.more(more, after(from))}
          </Press>
        ))}
        {more > 0 && sources.length === 0 && (
          <a class="press plain" href="/book">
            {words.book}
          </a>
        )}
        <Press kind={fewer === 0 ? "main" : "plain"} onPress={onClose}>
          {fewer === 0 ? everywhere.done : words.keep}
        </Press>
      </div>
    </section>
  );
}
