// The chicks of one batch: how many live, where they are, and the pages beside it.

import { brood as words } from "../app/words/brood.ts";
import { losses } from "../app/words/losses.ts";
import { papers } from "../app/words/papers.ts";
import { addsUp } from "../book/tied.ts";
import { matters, treatmentsOfLot } from "../book/treatments.ts";
import { broodsOf } from "../book/whereabouts.ts";
import { standing } from "../state/standing.ts";
import { BookProblems } from "./book-problems.tsx";
import { type Batch, batchOf, problemsOf } from "./brood-batch-view.ts";
import { BroodLinks } from "./brood-links.tsx";
import { DeathsNow, LossForm, WhomToCall } from "./brood-losses.tsx";
import { Lost } from "./brood-lost.tsx";
import { FirstWeek, Survival } from "./brood-survival.tsx";
import { BroodUnknown, PlacesOf } from "./brood-unknown.tsx";
import { ageWords } from "./brood-view.ts";
import { HeldBack } from "./held-back.tsx";
import { placeName } from "./names.ts";
import { useNow } from "./now.ts";
import { Page } from "./page.tsx";
import { PaperLinks } from "./paper-links.tsx";
import { Photos } from "./photos.tsx";
import { Section } from "./section.tsx";
import { dayKey } from "./told-time.ts";

/** "Rowan", or where it stands in several places "Rowan, Orchard". */
function groupName(name: string, place: string): string {
  const totals = standing.value;
  return place ? `${name}, ${placeName(totals, place)}` : name;
}

export function BroodBatchScreen({ id }: { id: string }) {
  const totals = standing.value;
  const now_ms = useNow();
  const batch = batchOf(totals, id, now_ms);
  if (batch === null) return <BroodUnknown id={id} />;
  const { lot, name } = batch;
  const today = dayKey(now_ms, totals.keeper.zone);
  const places = broodsOf(totals, lot);
  const groups = places.map(({ place, n, stages }) => {
    return { lot, among: [], n, stages, place, name: places.length > 1 ? groupName(name, place) : name };
  });
  return (
    <Page over={words.over} headline={headlineOf(batch)}>
      {(batch.alive === null || !addsUp(batch.tied)) && <BookProblems problems={problemsOf(totals, [lot])} />}
      <HeldBack
        treatments={treatmentsOfLot(totals, lot).filter((one) => matters(one, today))}
        today={today}
        whose={() => name}
      />
      <BroodLinks lot={lot} name={name} />
      <DeathsNow lots={[lot]} now_ms={now_ms} />
      <Section title={losses.title}>
        {groups.length > 0 && <LossForm groups={groups} now_ms={now_ms} />}
        <Lost batch={batch} />
        <FirstWeek batch={batch} now_ms={now_ms} />
        <WhomToCall />
      </Section>
      <Survival batch={batch} />
      <Section title={words.where}>
        <PlacesOf broods={places} />
      </Section>
      {lot.setting && (
        <PaperLinks of={name} links={[{ path: `papers/cards/${lot.setting}.pdf`, what: papers.cards }]} />
      )}
      <Photos about={lot.id} isOurs={(about) => about === lot.id} where={name} />
    </Page>
  );
}

/** "Rowan: 6 to 7 of 7 alive, 9 days old"; no figure of counts that cannot be. */
function headlineOf(batch: Batch): string {
  const { name, alive, aliveLeast, hatched } = batch;
  const age = ageWords([batch]);
  if (alive === null || aliveLeast === null) return words.title.cannotBe(name, age);
  const told = aliveLeast === alive ? `${alive}` : words.title.upTo(aliveLeast, alive);
  return words.title.batch(name, told, hatched, age);
}
