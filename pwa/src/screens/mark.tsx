// Marking the chicks of one batch: what is still to mark, how, who wears what, and what was marked so far.

import { capital } from "../app/words/capital.ts";
import { marks as words } from "../app/words/marks.ts";
import { regionOf, termsOf } from "../app/words/region.ts";
import { young } from "../app/words/species.ts";
import { webs as websAllowed } from "../state/choices.ts";
import { standing } from "../state/standing.ts";
import { BirdMarks } from "./bird-marks.tsx";
import { MarkForm } from "./mark-form.tsx";
import { MarkKey } from "./mark-key.tsx";
import { MarkLaw } from "./mark-law.tsx";
import { hatchOf, type MarkView, markView } from "./mark-view.ts";
import { MarksInUse, MarksWorn } from "./marks-worn.tsx";
import { batchNames, placeName } from "./names.ts";
import { Page } from "./page.tsx";

export function MarkScreen({ id }: { id: string }) {
  const totals = standing.value;
  const view = markView(totals, id);
  if (view === null) return <Page headline={words.gone} under={words.goneRemedy} />;
  const ring = termsOf(regionOf(totals.keeper.region)).ring;
  return (
    <Page
      over={view.bird ? words.bird.over : words.over(placeName(totals, view.place))}
      headline={headline(view)}
    >
      <Batches view={view} />
      {websAllowed.value === "unasked" ? <MarkLaw /> : <MarkForm key={id} view={view} ring={ring} />}
      {view.bird ? <BirdMarks bird={view.bird.id} ring={ring} /> : <MarksWorn view={view} ring={ring} />}
      <MarksInUse view={view} ring={ring} />
      {websAllowed.value === "yes" && <MarkKey />}
      {websAllowed.value !== "unasked" && <MarkLaw />}
    </Page>
  );
}

function headline({ bird, named: family, alive, toMark, species }: MarkView): string {
  if (bird)
    return toMark === 0 ? words.bird.title.marked(capital(family)) : words.bird.title.none(capital(family));
  if (toMark === 0) return words.title.all(family, young(alive, species));
  return toMark === alive
    ? words.title.none(family, young(alive, species))
    : words.title.some(family, toMark, young(alive, species));
}

function Batches({ view }: { view: MarkView }) {
  const lots = view.lot ? hatchOf(view.standing, view.lot) : [];
  if (lots.length < 2) return null;
  const names = batchNames(view.standing, lots);
  return (
    <nav class="acts" aria-label={words.batches}>
      {lots.map((one) => (
        <a
          key={one.id}
          class={one.id === view.lot?.id ? "press firm" : "press plain"}
          href={`/mark/${one.id}`}
          aria-current={one.id === view.lot?.id ? "page" : undefined}
        >
          {names.get(one.id)}
        </a>
      ))}
    </nav>
  );
}
