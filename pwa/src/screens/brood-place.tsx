// A brooder, a hen with chicks, a place where they grow: who is in it and what they need today.

import { broodMove, brood as words } from "../app/words/brood.ts";
import { losses } from "../app/words/losses.ts";
import { standing } from "../state/standing.ts";
import { BookProblems } from "./book-problems.tsx";
import { problemsOf } from "./brood-batch-view.ts";
import { BroodCare } from "./brood-care.tsx";
import { BroodHeat } from "./brood-heat.tsx";
import { DeathsNow, LossForm, WhomToCall } from "./brood-losses.tsx";
import { Minding } from "./brood-minding.tsx";
import { BroodNeeds } from "./brood-needs.tsx";
import { isMachine, lotsOf, type Nest, NOWHERE, nestAt, nestPath, odd } from "./brood-view.ts";
import { GroupRows, nestHeadline } from "./broods.tsx";
import { HeldBackAt } from "./held-back.tsx";
import { KeptApart } from "./kept-apart.tsx";
import { placeName } from "./names.ts";
import { useNow } from "./now.ts";
import { Page } from "./page.tsx";
import { Section } from "./section.tsx";
import { dayKey } from "./told-time.ts";

export function BroodPlaceScreen({ id }: { id: string }) {
  const now_ms = useNow();
  const totals = standing.value;
  const place = id === NOWHERE ? "" : (totals.rootOf.get(id) ?? id);
  const nest = nestAt(totals, place, now_ms);
  if (place !== "" && nest.place === null) return <Page headline={words.title.placeGone} />;
  const name = place === "" ? words.inNoPlace : placeName(totals, place);
  if (nest.n === 0) return <Page over={words.over} headline={words.title.empty(name)} />;
  const wrong = odd(nest).map(({ lot }) => lot);
  return (
    <Page over={name} headline={nestHeadline(nest, totals)}>
      <BookProblems problems={problemsOf(totals, wrong)} />
      {place === "" && <p class="section-note">{words.inNoPlaceRemedy}</p>}
      {isMachine(nest) && <p class="section-note">{words.inMachine}</p>}
      <KeptApart today={dayKey(now_ms, totals.keeper.zone)} lots={lotsOf(nest.groups)} />
      <Minding totals={totals} lots={lotsOf(nest.groups)} now_ms={now_ms} place={name} />
      {place !== "" && <HeldBackAt place={place} now_ms={now_ms} />}
      {place !== "" && !isMachine(nest) && <BroodHeat nest={nest} now_ms={now_ms} />}
      {place !== "" && !isMachine(nest) && <BroodCare nest={nest} now_ms={now_ms} />}
      <DeathsNow lots={lotsOf(nest.groups).flatMap((lot) => totals.lots.get(lot) ?? [])} now_ms={now_ms} />
      <Section title={losses.title}>
        <LossForm groups={nest.groups.map((group) => ({ ...group, place }))} now_ms={now_ms} />
        <WhomToCall />
      </Section>
      <Who nest={nest} />
      {!isMachine(nest) && wrong.length === 0 && <BroodNeeds nest={nest} now_ms={now_ms} />}
      <div class="acts">
        <a class="press firm" href={`${nestPath(place)}/move`}>
          {broodMove.link}
        </a>
        <a class="press plain" href="/broods">
          {words.all}
        </a>
      </div>
    </Page>
  );
}

function Who({ nest }: { nest: Nest }) {
  return (
    <Section title={words.who}>
      <GroupRows groups={nest.groups} />
    </Section>
  );
}
