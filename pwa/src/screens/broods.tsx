// All that hatched and is not grown: every place with young in it, the youngest first.
import type { ComponentChildren } from "preact";
import { brood as words } from "../app/words/brood.ts";
import { listed } from "../app/words/everywhere.ts";
import type { Standing } from "../book/standing.ts";
import { standing } from "../state/standing.ts";
import { heatAt, heatWords } from "../trade/brooding.ts";
import {
  ageWords,
  broodPath,
  type Group,
  groupWords,
  isHeated,
  isMachine,
  keyOf,
  type Nest,
  nestPath,
  nests,
  odd,
  youngWords,
} from "./brood-view.ts";
import { KeptApart } from "./kept-apart.tsx";
import { placeName } from "./names.ts";
import { useNow } from "./now.ts";
import { Page } from "./page.tsx";
import { dayKey } from "./told-time.ts";

export function BroodsScreen() {
  const totals = standing.value;
  const now_ms = useNow();
  const list = nests(totals, now_ms);
  const busy = list.filter(({ n }) => n > 0);
  const sound = busy.flatMap((nest) => nest.groups.filter((group) => !odd(nest).includes(group)));
  const who = youngWords(sound);
  return (
    <Page
      headline={busy.length === 0 ? words.title.none : words.title.some(who, busy.length)}
      under={busy.length === 0 ? words.noneRemedy : null}
    >
      <KeptApart today={dayKey(now_ms, totals.keeper.zone)} />
      {list.map((nest) => (
        <NestCard key={nest.id} nest={nest} totals={totals} />
      ))}
    </Page>
  );
}

/** A place in a few lines: who, how old, how warm it should be. */
interface NestCardProps {
  readonly nest: Nest;
  readonly totals: Standing;
  readonly children?: ComponentChildren;
}

export function NestCard({ nest, totals, children }: NestCardProps) {
  const name = nest.id ? placeName(totals, nest.id) : words.inNoPlace;
  return (
    <section class="room" aria-label={name}>
      <h2>{name}</h2>
      {nest.n === 0 ? <p class="quiet">{words.empty}</p> : <p>{nestHeadline(nest, totals)}</p>}
      {children}
      {nest.id === "" && <p class="quiet">{words.inNoPlaceRemedy}</p>}
      {isMachine(nest) && <p class="quiet">{words.inMachine}</p>}
      <GroupRows groups={nest.groups} />
      {nest.n > 0 && (
        <div class="acts">
          <a class="press firm" href={nestPath(nest.id)} aria-label={words.seeOf(name)}>
            {words.see}
          </a>
        </div>
      )}
    </section>
  );
}

/** Who is in a place, with how many and how old. Of unknown family there is no page of one batch. */
export function GroupRows({ groups }: { groups: readonly Group[] }) {
  return (
    <ul class="lines">
      {groups.map((group) => (
        <li key={keyOf(group)}>
          {group.among.length > 0 ? (
            <span>{group.name}</span>
          ) : (
            <a class="press bare" href={broodPath(group.lot.id)} aria-label={words.batchOf(group.name)}>
              {group.name}
            </a>
          )}
          <span>{`${groupWords(group)}, ${ageWords([group]) || words.ageUnknown}`}</span>
        </li>
      ))}
    </ul>
  );
}

/** "12 chicks, 9 days old: 29 to 32 °C". */
export function nestHeadline(nest: Nest, totals: Standing): string {
  const wrong = odd(nest).map(({ name }) => name);
  if (wrong.length > 0) return words.title.cannotBe(listed(wrong), ageWords(nest.groups));
  const told = words.title.nest(youngWords(nest.groups), ageWords(nest.groups));
  const { youngest } = nest;
  if (!isHeated(nest) || youngest === null || youngest.ageDays === null) return told;
  const heat = heatAt(youngest.species, youngest.ageDays);
  if (heat === undefined) return told;
  const warmth =
    heat.bandF === null ? words.title.byChicks : heatWords(heat.bandF, totals.keeper.temperature);
  return words.title.warm(told, warmth);
}
