// The page of a batch of which no chick is known, where chicks hatched that may be of it: whose they are, and where.
import { brood as words } from "../app/words/brood.ts";
import { listed } from "../app/words/everywhere.ts";
import { young } from "../app/words/species.ts";
import { speciesOf } from "../book/brood-course.ts";
import { outOfShell } from "../book/out-of-shell.ts";
import type { Lot } from "../book/standing.ts";
import { tiedTo } from "../book/tied.ts";
import { type Brood, sharedBroods } from "../book/whereabouts.ts";
import { standing } from "../state/standing.ts";
import { nestPath } from "./brood-view.ts";
import { batchName, placeName } from "./names.ts";
import { Page } from "./page.tsx";
import { Section } from "./section.tsx";

/** `id`: of a batch with no chick of its own, or of none that this phone knows. */
export function BroodUnknown({ id }: { id: string }) {
  const totals = standing.value;
  const lot = totals.lots.get(id);
  const n = lot ? mayBeOf(lot) : 0;
  if (!lot || n === 0) return <Page headline={words.title.gone} under={words.noneRemedy} />;
  const setting = totals.settings.get(lot.setting ?? "");
  const places = setting ? sharedBroods(totals, setting).filter(({ among }) => among.includes(id)) : [];
  const families = [...new Set(tiedTo(totals, lot).lots.map((one) => batchName(totals, one)))];
  return (
    <Page
      over={words.over}
      headline={words.title.unknown(batchName(totals, lot), young(n, speciesOf(totals, lot)))}
      under={words.unknownUnder(listed(families))}
    >
      <Section title={words.where}>
        {places.length === 0 && <p class="quiet">{words.noneLeft}</p>}
        <PlacesOf broods={places} />
      </Section>
    </Page>
  );
}

/** Where young are, each place with how many. */
export function PlacesOf({ broods }: { broods: readonly Brood[] }) {
  return (
    <ul class="lines">
      {broods.map(({ place, n }) => (
        <li key={place}>
          <a class="press bare" href={nestPath(place)}>
            {place ? placeName(standing.value, place) : words.inNoPlace}
          </a>
          <span>{n}</span>
        </li>
      ))}
    </ul>
  );
}

/** How many hatched of it and others together, nobody wrote of which. */
function mayBeOf(lot: Lot): number {
  const { among } = tiedTo(standing.value, lot);
  return outOfShell(among)
    .filter((move) => move.among.includes(lot.id))
    .reduce((sum, { n }) => sum + n, 0);
}
