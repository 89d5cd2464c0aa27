// Birds known by themselves, by family: who is here, who is lent, who is gone; and the young still to choose from.
import { useMemo, useState } from "preact/hooks";
import { birds as words } from "../app/words/birds.ts";
import { choosing } from "../app/words/choosing.ts";
import { young } from "../app/words/species.ts";
import { birdsOf, type OneBird, type Where } from "../book/birds.ts";
import { namedYoung } from "../book/named-young.ts";
import type { Lot } from "../book/standing.ts";
import { mayGo } from "../state/birds.ts";
import { standing } from "../state/standing.ts";
import { BirdsLeave } from "./bird-leaves.tsx";
import { ageTold, apartUntil, familyOfBird, marksOfBird, sexesIn, sexOf } from "./bird-view.ts";
import { BirdsSexing } from "./birds-sexing.tsx";
import { KeptApart } from "./kept-apart.tsx";
import { batchName } from "./names.ts";
import { useNow } from "./now.ts";
import { OrderNotice } from "./order-notice.tsx";
import { Page } from "./page.tsx";
import { Press } from "./parts/press.tsx";
import { SelectField } from "./parts/select-field.tsx";
import { TextField } from "./parts/text-field.tsx";
import { Section } from "./section.tsx";
import { dayTold } from "./told-day.ts";
import { dayKey } from "./told-time.ts";

const WHERES = ["here", "lent", "gone"] as const;

export function BirdsScreen() {
  const totals = standing.value;
  const today = dayKey(useNow(), totals.keeper.zone);
  const [where, setWhere] = useState<Where>("here");
  const [sought, setSought] = useState("");
  const [chosen, setChosen] = useState<readonly string[] | null>(null);
  const all = useMemo(() => [...birdsOf(totals, today).values()], [totals, today]);
  const here = all.filter((one) => one.where === "here");
  const shown = all.filter((one) => one.where === where && isFound(one, sought));
  const unsexed = here.filter(({ body }) => body.sex === "unknown");
  const toChoose = [...totals.lots.values()].filter((lot) => mayGo(lot) > 0);
  return (
    <Page
      headline={here.length === 0 ? words.title.none : words.title.some(here.length, sexesIn(totals, here))}
      under={all.length === 0 ? words.emptyRemedy : null}
    >
      <OrderNotice today={today} />
      <KeptApart today={today} />
      <nav class="acts" aria-label={words.link}>
        <a class="press firm" href="/birds/weigh">
          {words.weigh}
        </a>
        <a class="press plain" href="/birds/growth">
          {words.growth}
        </a>
        <a class="press plain" href="/birds/came">
          {words.come}
        </a>
        <a class="press plain" href="/birds/treatments">
          {words.treat}
        </a>
        <a class="press plain" href="/birds/orders">
          {words.orders}
        </a>
        <a class="press plain" href="/birds/record">
          {words.record}
        </a>
      </nav>
      {toChoose.length > 0 && (
        <Section title={words.young}>
          <ul class="rows">
            {toChoose.map((lot) => (
              <YoungRow key={lot.id} lot={lot} />
            ))}
          </ul>
        </Section>
      )}
      {unsexed.length > 0 && <BirdsSexing birds={unsexed} />}
      {all.length > 0 && (
        <div class="pair">
          <TextField label={words.find} value={sought} onType={setSought} capitals="characters" />
          <SelectField
            label={words.show}
            value={where}
            options={WHERES.map((value) => ({ value, text: words.where[value] }))}
            onChoose={(value) => setWhere(WHERES.find((one) => one === value) ?? "here")}
          />
        </div>
      )}
      {where === "here" && here.length > 1 && (
        <div class="acts">
          <Press
            kind="plain"
            expanded={chosen !== null}
            onPress={() => setChosen(chosen === null ? [] : null)}
          >
            {chosen === null ? words.several : words.severalOff}
          </Press>
        </div>
      )}
      {chosen !== null && chosen.length > 0 && (
        <BirdsLeave birds={here.filter(({ id }) => chosen.includes(id))} onDone={() => setChosen(null)} />
      )}
      {all.length > 0 && shown.length === 0 && <p class="quiet section-note">{words.noneFound}</p>}
      {byFamily(shown).map(([family, own]) => (
        <Section key={family} title={family}>
          <ul class="rows">
            {own.map((one) => (
              <BirdRow
                key={one.id}
                bird={one}
                today={today}
                {...(chosen && where === "here"
                  ? { chosen: chosen.includes(one.id), onChoose: () => setChosen(toggled(chosen, one.id)) }
                  : {})}
              />
            ))}
          </ul>
        </Section>
      ))}
    </Page>
  );

  function byFamily(list: readonly OneBird[]): [string, OneBird[]][] {
    const found = new Map<string, OneBird[]>();
    for (const one of list) {
      const family = familyOfBird(totals, one);
      found.set(family, [...(found.get(family) ?? []), one]);
    }
    return [...found].sort(([a], [b]) => a.localeCompare(b));
  }

  function isFound(one: OneBird, text: string): boolean {
    const plain = text.trim().toLowerCase();
    return plain === "" || [one.label, ...marksOfBird(totals, one)].join(" ").toLowerCase().includes(plain);
  }
}

const toggled = (list: readonly string[], id: string) =>
  list.includes(id) ? list.filter((one) => one !== id) : [...list, id];

function YoungRow({ lot }: { lot: Lot }) {
  const totals = standing.value;
  const species =
    totals.settings.get(lot.setting ?? "")?.species ??
    totals.families.get(lot.family ?? "")?.species ??
    "chicken";
  const name = batchName(totals, lot);
  const named = namedYoung(totals, lot);
  const n = mayGo(lot) - named;
  return (
    <li class="due-row">
      <span class="body">
        {n > 0 ? words.youngLine(name, young(n, species)) : words.youngNamed(name, named)}
      </span>
      <a class="press plain" href={`/birds/choose/${lot.id}`} aria-label={`${words.choose}: ${name}`}>
        {words.choose}
      </a>
      <a
        class="press plain"
        href={`/birds/weigh?who=lot:${lot.id}`}
        aria-label={`${choosing.weigh}: ${name}`}
      >
        {choosing.weigh}
      </a>
    </li>
  );
}

interface BirdRowProps {
  readonly bird: OneBird;
  readonly today: string;
  readonly chosen?: boolean;
  readonly onChoose?: () => void;
}

function BirdRow({ bird, today, chosen, onChoose }: BirdRowProps) {
  const totals = standing.value;
  const apart = apartUntil(totals, bird.id, today);
  const age = ageTold(bird.body.hatched_on, today);
  const marks = marksOfBird(totals, bird).filter((mark) => mark !== bird.label);
  const about = [sexOf(totals, bird), age && words.old(age), ...marks].filter(Boolean).join("; ");
  return (
    <li class="due-row">
      {onChoose && (
        <Press role="switch" checked={chosen ?? false} name={words.pick(bird.label)} onPress={onChoose}>
          {chosen ? "✓" : ""}
        </Press>
      )}
      <span class="body">
        <a class="bird-link" href={`/bird/${bird.id}`}>
          {bird.label}
        </a>
        <span class="quiet">{about}</span>
        {apart && <b>{words.apart(dayTold(apart))}</b>}
      </span>
    </li>
  );
}
