// The families: each line with its finished hatches, as rates with their intervals.
import { useState } from "preact/hooks";
import { everywhere } from "../app/words/everywhere.ts";
import { pens as penWords } from "../app/words/pens.ts";
import { families as words } from "../app/words/setup.ts";
import { birdsOf } from "../book/birds.ts";
import type { Family } from "../book/bodies.generated.ts";
import { ownWords } from "../book/own-words.ts";
import { birdsOfPen, penStays, standingPens } from "../book/pen-stays.ts";
import { amend, nameFamily } from "../state/holding.ts";
import { standing } from "../state/standing.ts";
import { sexesIn } from "./bird-view.ts";
import { FamilyForm } from "./family-form.tsx";
import { familyHatches } from "./family-hatches.ts";
import { placeName } from "./names.ts";
import { useNow } from "./now.ts";
import { Page } from "./page.tsx";
import { Press } from "./parts/press.tsx";
import { RateLine } from "./rate-line.tsx";
import { speciesName } from "./species-name.ts";
import { dayTold } from "./told-day.ts";
import { dayKey } from "./told-time.ts";

export function FamiliesScreen() {
  const [open, setOpen] = useState<string | null>(null);
  const { families, keeper } = standing.value;
  const own = ownWords(keeper.words).family;
  const sorted = [...families].sort(([, a], [, b]) => a.name.localeCompare(b.name));
  const adding = open === "new" || families.size === 0;
  return (
    <Page
      headline={
        families.size === 0 ? words.title.none(own.one) : words.title.some(families.size, own.one, own.many)
      }
      under={families.size === 0 ? words.emptyRemedy(own.one) : null}
    >
      {adding && (
        <section class="section" aria-label={words.add(own.one)}>
          <FamilyForm
            start={lastNamed(sorted.map(([, family]) => family))}
            onSave={(family) => {
              void nameFamily(family);
              setOpen(null);
            }}
            {...(families.size > 0 ? { onCancel: () => setOpen(null) } : {})}
          />
        </section>
      )}
      {sorted.length > 0 && (
        <ul class="rows">
          {sorted.map(([id, family]) => (
            <li key={id}>
              {open === id ? (
                <FamilyForm
                  id={id}
                  start={family}
                  onSave={(changed) => {
                    void amend(id, "family", changed);
                    setOpen(null);
                  }}
                  onCancel={() => setOpen(null)}
                />
              ) : (
                <FamilyRow id={id} family={family} onChange={() => setOpen(id)} />
              )}
            </li>
          ))}
        </ul>
      )}
      {sorted.length > 0 && (
        <p class="quiet small section">{words.recordWhy(ownWords(keeper.words).hatch.many)}</p>
      )}
      {!adding && (
        <div class="acts">
          <a class="press plain" href="/birds">
            {words.birds}
          </a>
          <a class="press plain" href="/eggs">
            {words.eggsInStore}
          </a>
          <a class="press plain" href="/season">
            {words.season}
          </a>
          <a class="press plain" href="/families/pens">
            {penWords.link}
          </a>
          <a class="press plain" href="/families/kin">
            {words.kin}
          </a>
          <a class="press plain" href="/pairing">
            {words.pairing}
          </a>
          <a class="press plain" href="/families/keep">
            {words.choosing}
          </a>
          <a class="press plain" href="/plan">
            {words.wished}
          </a>
          <Press kind="main" onPress={() => setOpen("new")}>
            {words.add(own.one)}
          </Press>
        </div>
      )}
    </Page>
  );
}

/** A new family is most often of the same species and breed as the ones before. */
function lastNamed(families: readonly Family[]): Partial<Family> {
  const like = families.at(-1);
  return like ? { species: like.species, breed: like.breed } : {};
}

/** Its birds, and who of them and of others stands in its pens today. */
function FamilyBirds({ id }: { id: string }) {
  const totals = standing.value;
  const today = dayKey(useNow(), totals.keeper.zone);
  const birds = birdsOf(totals, today);
  const here = [...birds.values()].filter(
    ({ where, body }) =>
      where === "here" && (totals.rootOf.get(body.family ?? "") ?? body.family ?? "") === id,
  );
  const pens = standingPens(penStays(totals), today).filter((pen) => pen.family === id);
  return (
    <>
      {here.length > 0 && <p>{sexesIn(totals, here)}</p>}
      {pens.map((pen) => {
        const inside = [...birdsOfPen(totals, pen)].flatMap((bird) => birds.get(bird) ?? []);
        const name = pen.place ? placeName(totals, pen.place) : penWords.inPen;
        return <p key={pen.entry}>{penWords.line(name, sexesIn(totals, inside), dayTold(pen.since))}</p>;
      })}
    </>
  );
}

function FamilyRow({ id, family, onChange }: { id: string; family: Family; onChange: () => void }) {
  const own = ownWords(standing.value.keeper.words).hatch;
  const hatches = familyHatches(standing.value, id, useNow());
  return (
    <div>
      <div class="head">
        <h2>{family.name}</h2>
        <Press kind="bare" name={words.change(family.name)} onPress={onChange}>
          {everywhere.change}
        </Press>
      </div>
      <p>
        {[speciesName(family.species), family.breed, family.variety].filter(Boolean).join(", ")}
        {family.sign && <span class="quiet">{`. ${words.signed(family.sign)}`}</span>}
      </p>
      <FamilyBirds id={id} />
      <p class="quiet small">
        {[
          hatches.settings > 0 ? words.record(hatches.settings, hatches.set, own.one, own.many) : null,
          hatches.running > 0 ? words.running(hatches.running, own.one) : null,
          hatches.settings + hatches.running === 0 ? words.noEggs : null,
        ]
          .filter(Boolean)
          .join(". ")}
      </p>
      {hatches.settings > 0 && (
        <dl class="measures">
          <RateLine label={words.fertile} rate={hatches.fertility} />
          <RateLine label={words.hatched} rate={hatches.hatchOfFertile} />
        </dl>
      )}
    </div>
  );
}
