// What is done at a machine with one tap, and the line under it that takes it back or says when it was.
import { useState } from "preact/hooks";
import { machine as words } from "../app/words/machine.ts";
import type { Entry } from "../book/entries.ts";
import type { Side } from "../book/turning.ts";
import { undo } from "../state/actions.ts";
import { bookNow_ms } from "../state/book-clock.ts";
import { done, doneAt, lastDoneAt, otherSide, powerOff, type QuickAct } from "../state/machine.ts";
import { standing } from "../state/standing.ts";
import { type Moment, NOW } from "./parts/moment.ts";
import { Press } from "./parts/press.tsx";
import { clock, daysBetween, dayWords } from "./told-time.ts";
import { When, whenOf } from "./when.tsx";

interface QuickActsProps {
  readonly place: string;
  readonly name: string;
  readonly now_ms: number;
  /** The mark to turn up next; null where these eggs are not turned by hand. */
  readonly next: Side | null;
  /** The power is away already. */
  readonly isOff: boolean;
}

const KINDS = ["turned", "watered", "vented"] as const;

export function QuickActs({ place, name, now_ms, next, isOff }: QuickActsProps) {
  const last = lastDoneAt(place, KINDS);
  return (
    <>
      <fieldset class="quick" aria-label={words.acts(name)}>
        {next && <Press onPress={() => void done("turned", place, next)}>{words.turnTo[next]}</Press>}
        <Press onPress={() => void done("watered", place)}>{words.act.watered}</Press>
        <Press onPress={() => void done("vented", place)}>{words.act.vented}</Press>
        <a class="press firm" href={`/rooms/${place}/air`}>
          {words.air}
        </a>
        <a class="press firm" href={`/rooms/${place}/gauge`}>
          {words.gauge}
        </a>
        {!isOff && <Press onPress={() => void powerOff(bookNow_ms())}>{words.powerOff}</Press>}
      </fieldset>
      {last && <DoneLine key={last.id} entry={last} now_ms={now_ms} />}
    </>
  );
}

/** The act done last: taken back, dated or corrected in one tap. */
function DoneLine({ entry, now_ms }: { entry: Entry; now_ms: number }) {
  const [dating, setDating] = useState(false);
  const { zone } = standing.value.keeper;
  const head = standing.value.heads[entry.kind as QuickAct]?.find((one) => one.root === entry.id);
  if (!head) return null;
  const side = head.body.side as Side | undefined;
  const other: Side = side === "x" ? "o" : "x";
  const what = side ? words.turnTo[side] : words.act[head.kind];
  const day = daysBetween(head.atMs, now_ms, zone);
  const when = day === 0 ? clock(head.atMs, zone) : `${dayWords(head.atMs, zone)}, ${clock(head.atMs, zone)}`;
  return (
    <div class="done-line" role="status">
      <p>{words.doneAt(what, when)}</p>
      <div class="acts">
        <Press kind="plain" name={`${words.undo}: ${what}`} onPress={() => void undo(entry.id)}>
          {words.undo}
        </Press>
        {side && (
          <Press kind="plain" onPress={() => void otherSide(head, other)}>
            {words.other[other]}
          </Press>
        )}
        <Press kind="plain" expanded={dating} onPress={() => setDating(!dating)}>
          {words.when}
        </Press>
      </div>
      {dating && (
        <Dating
          now_ms={now_ms}
          onSave={(at) => {
            void doneAt(head, at);
            setDating(false);
          }}
        />
      )}
    </div>
  );
}

/** When it was after all. */
export function Dating({ now_ms, onSave }: { now_ms: number; onSave: (at: Date) => void }) {
  const [moment, setMoment] = useState<Moment>(NOW);
  const now = new Date(now_ms);
  const at = whenOf(moment, now);
  return (
    <>
      <When moment={moment} now={now} onChange={setMoment} />
      <div class="acts">
        <Press kind="main" off={at === undefined} onPress={() => onSave(at ?? now)}>
          {words.whenSave}
        </Press>
      </div>
    </>
  );
}
