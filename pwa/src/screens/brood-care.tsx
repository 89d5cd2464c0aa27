// What a place with chicks asks for: done with one tap, put off, or silenced; and the dust bath they may choose.
import { choreWords, chores as words } from "../app/words/chores.ts";
import { inRegion, regionOf } from "../app/words/region.ts";
import { due } from "../book/agenda.ts";
import { caredOn, caresAt, countsFor } from "../book/cared.ts";
import { undo } from "../state/actions.ts";
import { choreDone, roundDone } from "../state/chores.ts";
import { standing } from "../state/standing.ts";
import { lotsOf, type Nest } from "./brood-view.ts";
import { ChoreDone } from "./chore-done.tsx";
import { DueRow, inOneRow } from "./due-row.tsx";
import { Press } from "./parts/press.tsx";
import { Section } from "./section.tsx";
import { weekdayTold } from "./told-day.ts";
import { dayKey } from "./told-time.ts";

export function BroodCare({ nest, now_ms }: { nest: Nest; now_ms: number }) {
  const totals = standing.value;
  const today = dayKey(now_ms, totals.keeper.zone);
  const lots = new Set(lotsOf(nest.groups));
  const tasks = due(totals, new Date(now_ms)).tasks.filter(
    (task) => task.place === nest.id && (choreWords(task.task) || (task.lot !== null && lots.has(task.lot))),
  );
  const isDue = tasks.some((task) => task.due <= today);
  return (
    <Section title={words.title}>
      <div class="acts">
        <Press kind={isDue ? "main" : "firm"} onPress={() => void roundDone(nest.id)}>
          {words.round}
        </Press>
      </div>
      <ChoreDone now_ms={now_ms} place={nest.id} about="care" />
      {!isDue && <p class="section-note">{words.nothing}</p>}
      <ul class="rows">
        {inOneRow(tasks).map(([task, ...beside]) => (
          <DueRow
            key={`${task.task} ${task.lot} ${task.at}`}
            task={task}
            beside={beside}
            group={task.overdue ? "late" : task.due <= today ? "now" : "week"}
            main={false}
            now_ms={now_ms}
          />
        ))}
      </ul>
      <Bath nest={nest} today={today} />
      <Silent nest={nest} today={today} />
    </Section>
  );
}

/** Offered once no chick here is under heat, until the keeper says that they have one. */
function Bath({ nest, today }: { nest: Nest; today: string }) {
  const isGrowing = nest.groups.every(({ stages }) => !stages.has("hatched") && !stages.has("brooding"));
  const totals = standing.value;
  const born = nest.groups.flatMap(({ bornMs }) => bornMs ?? []).sort((a, b) => a - b)[0];
  const first = born === undefined ? "" : dayKey(born, totals.keeper.zone);
  const lots = nest.groups.map(({ lot }) => lot.id);
  const has = caredOn(totals, "dust_bath", nest.id, lots).some((on) => on >= first);
  if (!isGrowing || has || nest.place?.role === "hen") return null;
  return (
    <details>
      <summary>{words.bath.title}</summary>
      <p>{words.bath.why}</p>
      <div class="acts">
        <Press kind="plain" onPress={() => void choreDone("dust_bath", nest.id, today)}>
          {words.bath.ask}
        </Press>
      </div>
    </details>
  );
}

/** Tasks put off or silenced: until when, and asked again with one tap. */
function Silent({ nest, today }: { nest: Nest; today: string }) {
  const region = regionOf(standing.value.keeper.region);
  const totals = standing.value;
  const silent = caresAt(totals, nest.id).filter(
    (care) =>
      care.body.on > today &&
      choreWords(care.body.task) &&
      nest.groups.some(({ lot }) => countsFor(totals, care, nest.id, lot.id)),
  );
  if (silent.length === 0) return null;
  return (
    <>
      <h3 class="section">{words.silent}</h3>
      <ul class="rows">
        {silent.map(({ root, body }) => {
          const what = inRegion(choreWords(body.task)?.what ?? "", region);
          return (
            <li class="due-row" key={root}>
              <span class="body">{words.silentLine(what, weekdayTold(body.on.slice(0, 10)))}</span>
              <Press kind="plain" name={`${words.ask}: ${what}`} onPress={() => void undo(root)}>
                {words.ask}
              </Press>
            </li>
          );
        })}
      </ul>
    </>
  );
}
