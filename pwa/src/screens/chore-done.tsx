// What was done last for a brood: taken back or dated anew in one tap.
import { useState } from "preact/hooks";
import { chores as words } from "../app/words/chores.ts";
import { machine } from "../app/words/machine.ts";
import { inRegion, regionOf } from "../app/words/region.ts";
import type { Head } from "../book/standing.ts";
import { undo } from "../state/actions.ts";
import { choreAt, lastChore } from "../state/chores.ts";
import { standing } from "../state/standing.ts";
import { placeName } from "./names.ts";
import { Press } from "./parts/press.tsx";
import { Dating } from "./quick-acts.tsx";
import { careWords, checkWords } from "./told-brood.ts";
import { clock, dayKey, daysBetween, dayWords } from "./told-time.ts";

interface ChoreDoneProps {
  readonly now_ms: number;
  /** Only what was done here; anywhere where it is left out. */
  readonly place?: string;
  /** Only a look at chicks and heat, or only all else. */
  readonly about?: "heat" | "care";
}

export function ChoreDone({ now_ms, place, about }: ChoreDoneProps) {
  const last = lastChore(place);
  if (last === null || (about !== undefined && about !== aboutOf(last))) return null;
  return <DoneLine key={last.root} head={last} now_ms={now_ms} />;
}

function aboutOf({ body }: Head<"care" | "brooder_check">): "heat" | "care" {
  return ("look" in body && body.look) || "heat_c" in body ? "heat" : "care";
}

function DoneLine({ head, now_ms }: { head: NonNullable<ReturnType<typeof lastChore>>; now_ms: number }) {
  const [dating, setDating] = useState(false);
  const totals = standing.value;
  const { zone, region } = totals.keeper;
  const what = inRegion(whatWas(head, totals), regionOf(region));
  const time = clock(head.atMs, zone);
  const when = daysBetween(head.atMs, now_ms, zone) === 0 ? time : `${dayWords(head.atMs, zone)}, ${time}`;
  return (
    <div class="done-line" role="status">
      <p>{words.doneAt(what, placeName(totals, head.body.place), when)}</p>
      <div class="acts">
        <Press kind="plain" name={`${machine.undo}: ${what}`} onPress={() => void undo(head.root)}>
          {machine.undo}
        </Press>
        <Press kind="plain" expanded={dating} onPress={() => setDating(!dating)}>
          {machine.when}
        </Press>
      </div>
      {dating && (
        <Dating
          now_ms={now_ms}
          onSave={(at) => {
            void choreAt(head, at, dayKey(at.getTime(), zone));
            setDating(false);
          }}
        />
      )}
    </div>
  );
}

function whatWas(head: Head<"care" | "brooder_check">, totals: typeof standing.value): string {
  if (head.kind === "brooder_check") return checkWords((head as Head<"brooder_check">).body, totals);
  const body = (head as Head<"care">).body;
  return careWords(body, head.atMs, totals.keeper.zone) ?? body.task;
}
