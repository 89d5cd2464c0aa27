// The chicks of one batch: how many live, where they are, and the pages beside it.

import { brood as words } from "../app/words/brood.ts";
import { living } from "../book/marks.ts";
import { broodsOf } from "../book/whereabouts.ts";
import { standing } from "../state/standing.ts";
import { batchOf } from "./brood-batch-view.ts";
import { BroodLinks } from "./brood-links.tsx";
import { ageWords, nestPath } from "./brood-view.ts";
import { placeName } from "./names.ts";
import { useNow } from "./now.ts";
import { Page } from "./page.tsx";
import { Photos } from "./photos.tsx";
import { Section } from "./section.tsx";

export function BroodBatchScreen({ id }: { id: string }) {
  const totals = standing.value;
  const batch = batchOf(totals, id, useNow());
  if (batch === null) return <Page headline={words.title.gone} under={words.noneRemedy} />;
  const { lot, name, hatched } = batch;
  return (
    <Page over={words.over} headline={words.title.batch(name, living(lot), hatched, ageWords([batch]))}>
      <BroodLinks lot={lot} name={name} />
      <Section title={words.where}>
        <ul class="lines">
          {broodsOf(totals, lot).map(({ place, n }) => (
            <li key={place}>
              <a class="press bare" href={nestPath(place)}>
                {place ? placeName(totals, place) : words.inNoPlace}
              </a>
              <span>{n}</span>
            </li>
          ))}
        </ul>
      </Section>
      <Photos about={lot.id} isOurs={(about) => about === lot.id} where={name} />
    </Page>
  );
}
