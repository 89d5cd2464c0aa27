// Marking the chicks of one batch: what is still to mark, how, who wears what, and what was marked so far.

import { capital } from "../app/words/capital.ts";
import { marks as words } from "../app/words/marks.ts";
import { papers } from "../app/words/papers.ts";
import { regionOf, termsOf } from "../app/words/region.ts";
import { young } from "../app/words/species.ts";
import { bookNow_ms } from "../state/book-clock.ts";
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
import { PaperLinks } from "./paper-links.tsx";
import { seasonOf } from "./told-season.ts";
import { dayKey } from "./told-time.ts";

export function MarkScreen({ id }: { id: string }) {
  const totals = standing.value;
  const view = markView(totals, id);
  if (view === null) return <Page headline={words.gone} under={words.goneRemedy} />;
  const { region, zone, season_starts } = totals.keeper;
  const ring = termsOf(regionOf(region)).ring;
  const year = seasonOf(dayKey(bookNow_ms(), zone), season_starts);
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
      <PaperLinks
        of={papers.season(year)}
        links={[{ path: `papers/marks/${year}.pdf`, what: papers.marks }]}
      />
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
