// Choosing from one batch: who is kept and becomes a bird of its own, who is sold, given or culled.
import { useState } from "preact/hooks";
import { birds as birdWords } from "../app/words/birds.ts";
import { choosing as words } from "../app/words/choosing.ts";
import { young } from "../app/words/species.ts";
import { birdsOf, lotOf } from "../book/birds.ts";
import { hatchedMs } from "../book/hatch-day.ts";
import { heldMs } from "../book/moments.ts";
import { namedYoung } from "../book/named-young.ts";
import { inStage } from "../book/standing.ts";
import { joinBirds, mayGo, mayKeep } from "../state/birds.ts";
import { standing } from "../state/standing.ts";
import { ageTold } from "./bird-view.ts";
import { ChooseGoing } from "./choose-going.tsx";
import { ChooseKept } from "./choose-kept.tsx";
import { LotParents } from "./lot-parents.tsx";
import { batchName } from "./names.ts";
import { useNow } from "./now.ts";
import { Page } from "./page.tsx";
import { Choice } from "./parts/choice.tsx";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { Section } from "./section.tsx";
import { dayKey } from "./told-time.ts";

const WAYS = ["keep", "parted", "culled"] as const;
type ChoiceWay = (typeof WAYS)[number];

export function ChooseScreen({ id }: { id: string | null }) {
  const totals = standing.value;
  const { zone } = totals.keeper;
  const today = dayKey(useNow(), zone);
  const [way, setWay] = useState<ChoiceWay>("keep");
  const lot = totals.lots.get(id ?? "");
  const kept = [...birdsOf(totals, today).values()].filter(({ body }) => lotOf(body) === id);
  if (!lot || (mayGo(lot) === 0 && kept.length === 0)) {
    return (
      <Page headline={words.gone} under={words.goneRemedy}>
        <Ways />
      </Page>
    );
  }
  const species =
    totals.settings.get(lot.setting ?? "")?.species ??
    totals.families.get(lot.family ?? "")?.species ??
    "chicken";
  const bornMs = hatchedMs(totals, lot);
  const hatchedOn = bornMs === null ? null : dayKey(heldMs(bornMs), lot.came ? "UTC" : zone);
  const age = ageTold(hatchedOn, today);
  const named = namedYoung(totals, lot);
  const n = mayGo(lot) - named;
  const keepable = Math.min(n, mayKeep(lot));
  return (
    <Page
      headline={
        n > 0 ? words.title(batchName(totals, lot), young(n, species)) : words.done(batchName(totals, lot))
      }
      under={words.under(
        age ? words.age(age) : words.ageUnknown,
        Math.max(kept.length, inStage(lot, "flock")),
      )}
    >
      {named > 0 && (
        <Notice>
          <p>{words.named(named)}</p>
          <Press kind="plain" onPress={() => void joinBirds(lot, named)}>
            {words.join(named)}
          </Press>
        </Notice>
      )}
      {n > 0 && (
        <Choice
          label={words.ways.label}
          value={way}
          options={WAYS.map((value) => ({ value, text: words.ways[value] }))}
          onChoose={setWay}
        />
      )}
      {n > keepable && way === "keep" && <p class="section-note">{words.notBrooded}</p>}
      {way === "keep" && keepable > 0 && (
        <ChooseKept key={lot.id} lot={lot} species={species} hatchedOn={hatchedOn} most={keepable} />
      )}
      {way !== "keep" && n > 0 && <ChooseGoing key={way} lot={lot} to={way} most={n} />}
      <p class="quiet section-note">{words.compare}</p>
      {kept.length > 0 && (
        <Section title={words.keptHere}>
          <ul class="lines">
            {kept.map((one) => (
              <li key={one.id}>
                <a class="bird-link" href={`/bird/${one.id}`}>
                  {one.label}
                </a>
              </li>
            ))}
          </ul>
        </Section>
      )}
      <LotParents lot={lot.id} />
      <Ways lot={lot.id} />
    </Page>
  );
}

function Ways({ lot }: { lot?: string }) {
  return (
    <div class="acts">
      {lot && (
        <a class="press plain" href={`/birds/weigh?who=lot:${lot}`}>
          {words.weigh}
        </a>
      )}
      <a class="press plain" href="/birds/growth">
        {words.growth}
      </a>
      <a class="press plain" href="/birds">
        {birdWords.link}
      </a>
    </div>
  );
}
