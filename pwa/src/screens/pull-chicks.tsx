// Dry chicks to feed and water: into which brooder, whom they meet there, and when; taken back like anything else.
import { useState } from "preact/hooks";
import { brood, broodMove } from "../app/words/brood.ts";
import { hatching as words } from "../app/words/hatching.ts";
import { machine } from "../app/words/machine.ts";
import { young } from "../app/words/species.ts";
import { inStage } from "../book/standing.ts";
import { broods, sharedBroods } from "../book/whereabouts.ts";
import { undo } from "../state/actions.ts";
import { doneAt, pullChicks } from "../state/machine.ts";
import { recent } from "../state/recording.ts";
import { standing } from "../state/standing.ts";
import { Minding } from "./brood-minding.tsx";
import { isHome, nestPath } from "./brood-view.ts";
import { Press } from "./parts/press.tsx";
import { SelectField } from "./parts/select-field.tsx";
import { Dating } from "./quick-acts.tsx";
import { type SettingView, whereIs } from "./setting-view.ts";

export function PullChicks({ view, now_ms }: { view: SettingView; now_ms: number }) {
  const totals = standing.value;
  const { places, heads } = totals;
  const [dating, setDating] = useState(false);
  const homes = [...places].filter(([, place]) => isHome(place));
  const [chosen, setChosen] = useState(homes[0]?.[0] ?? "");
  const out = view.batches
    .map((lot) => ({ lot: lot.id, n: Math.max(0, inStage(lot, "hatched")) }))
    .filter((move) => move.n > 0);
  const unknown = sharedBroods(totals, view.setting).flatMap(({ among, stages }) => {
    const n = stages.get("hatched") ?? 0;
    return n > 0 ? [{ among: [...among], n }] : [];
  });
  const moves = [...out, ...unknown];
  const n = moves.reduce((sum, move) => sum + move.n, 0);
  const text = young(n, view.setting.species);
  const home = places.get(chosen);
  const lots = new Set(view.batches.map((lot) => lot.id));
  const written = recent.value
    .filter(
      (entry) =>
        entry.kind === "moved" &&
        entry.amends === null &&
        entry.body.why === "pulled" &&
        isOf(entry.body.moves, lots),
    )
    .at(-1);
  const last = heads.moved?.find((head) => head.root === written?.id);
  if (n === 0 && !last) return null;
  const there = broods(totals).filter((one) => one.place === chosen);
  const may = unknown.flatMap(({ among }) => among);
  const together = [...new Set([...[...out, ...there].map(({ lot }) => lot), ...may])];
  return (
    <>
      {n > 0 && homes.length > 1 && (
        <SelectField
          label={words.pull.where}
          value={chosen}
          options={homes.map(([id, place]) => ({ value: id, text: place.name }))}
          onChoose={setChosen}
        />
      )}
      {n > 0 && home && <Minding totals={totals} lots={together} now_ms={now_ms} place={null} />}
      <div class="acts">
        {n > 0 && (
          <Press
            kind="plain"
            onPress={() => void pullChicks(moves, { day: view.day, ...(home ? { place: chosen } : {}) })}
          >
            {home ? words.pull.move(text, home.name) : words.pull.moveAny(text)}
          </Press>
        )}
        {n > 0 && (
          <a class="press plain" href={`${nestPath(whereIs(view.setting))}/move`}>
            {broodMove.some}
          </a>
        )}
        {last?.body.place && (
          <a class="press firm" href={nestPath(last.body.place)}>
            {brood.see}
          </a>
        )}
        {last && (
          <Press
            kind="plain"
            name={`${machine.undo}: ${words.pull.moved}`}
            onPress={() => void undo(last.root)}
          >
            <span>
              {machine.undo}
              <br />
              <span class="quiet">{words.pull.moved}</span>
            </span>
          </Press>
        )}
        {last && (
          <Press kind="plain" expanded={dating} onPress={() => setDating(!dating)}>
            {machine.when}
          </Press>
        )}
      </div>
      {last && dating && (
        <Dating
          now_ms={now_ms}
          onSave={(at) => {
            void doneAt(last, at);
            setDating(false);
          }}
        />
      )}
    </>
  );
}

const isOf = (moves: unknown, lots: ReadonlySet<string>): boolean =>
  Array.isArray(moves) &&
  moves.some((move: { lot?: string; among?: string[] }) =>
    [...(move.among ?? []), move.lot ?? ""].some((lot) => lots.has(lot)),
  );
