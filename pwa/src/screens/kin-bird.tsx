// One bird's forebears as a tree: at each place all that may have stood there, with their chance.
import { useEffect } from "preact/hooks";
import { answers, chanceTold, pct } from "../app/words/answers.ts";
import { kin as words } from "../app/words/kin.ts";
import { papers } from "../app/words/papers.ts";
import { regionOf, termsOf } from "../app/words/region.ts";
import { askFamily, familyTold } from "../state/bird-reports.ts";
import type { KinBird, KinReport } from "../state/kin-report.ts";
import { standing } from "../state/standing.ts";
import { type Forebear, forebears } from "./kin-tree.ts";
import { Page } from "./page.tsx";
import { PaperLinks } from "./paper-links.tsx";
import { Press } from "./parts/press.tsx";
import { PrintPress, Stale, ToldAnswer } from "./told-answer.tsx";

const GENERATIONS = 3;
const MOST_TOLD = 3;

export function KinBirdScreen({ id }: { id: string }) {
  useEffect(() => void askFamily(), []);
  return (
    <ToldAnswer answer={familyTold.value} title={words.one.over} again={() => void askFamily()}>
      {(report, when) => <KinBirdPage id={id} report={report} when={when} />}
    </ToldAnswer>
  );
}

function KinBirdPage({ id, report, when }: { id: string; report: KinReport; when: string }) {
  const bird = report.birds.find((one) => one.bird === id);
  if (!bird) {
    return (
      <Page headline={words.one.missing} over={answers.over(when)} under={words.one.missingRemedy}>
        <Press kind="main" onPress={() => void askFamily()}>
          {answers.again}
        </Press>
      </Page>
    );
  }
  const known = bird.inbreeding !== null;
  const range =
    known && bird.high - bird.low > 0.0005 ? `, ${words.range(pct(bird.low), pct(bird.high))}` : "";
  return (
    <Page
      headline={words.one.title(bird.label, `${words.inbreedingTold(bird.inbreeding)}${range}`)}
      over={answers.over(when)}
      under={known ? words.one.under(bird.generations.toFixed(1)) : words.one.none}
      beside={<PrintPress />}
      wide
    >
      <Stale answer={familyTold.value} when={when} />
      <KinTree birds={report.birds} of={bird} />
      {bird.notes.length > 0 && (
        <section class="section">
          <h2>{words.one.notes}</h2>
          {bird.notes.map((note) => (
            <p key={note}>{note}</p>
          ))}
        </section>
      )}
      <Chicks birds={report.birds} of={bird} />
      <PaperLinks of={bird.label} links={[{ path: `papers/pedigree/${id}.pdf`, what: papers.bird }]} />
      <div class="acts no-print">
        <a class="press plain" href={`/bird/${id}`}>
          {words.one.page}
        </a>
        <a class="press plain" href="/families/kin">
          {words.one.all}
        </a>
      </div>
    </Page>
  );
}

/** The tree by itself, for any page about a bird. */
export function KinTree({ birds, of }: { birds: readonly KinBird[]; of: KinBird }) {
  const byId = new Map(birds.map((one) => [one.bird, one]));
  const places = forebears(byId, of.bird, GENERATIONS);
  if (places.length === 0) return null;
  return (
    <section class="section kin-tree" aria-label={words.one.tree(of.label)}>
      <p class="kin-self">
        <b>{of.label}</b>
      </p>
      <Places places={places} way={[]} />
    </section>
  );
}

function Places({ places, way }: { places: readonly Forebear[]; way: readonly ("sire" | "dam")[] }) {
  if (places.length === 0) return null;
  const { cock } = termsOf(regionOf(standing.value.keeper.region));
  return (
    <ul>
      {places.map((place) => {
        const here = [...way, place.side];
        const more = place.candidates.length - MOST_TOLD;
        return (
          <li key={place.side}>
            <div class="kin-place">
              <span class="quiet">
                <span aria-hidden="true">{words.side(place.side, cock)}</span>
                <span class="heard">{words.way(here, cock)}</span>
              </span>
              {place.candidates.slice(0, MOST_TOLD).map((one) => (
                <a key={one.bird} href={`/families/kin/${one.bird}`}>
                  {one.label}
                  {one.chance < 0.9995 && <span class="quiet"> {chanceTold(one.chance)}</span>}
                </a>
              ))}
              {more > 0 && <span class="quiet">{words.one.more(more)}</span>}
              {place.unknown > 0 && (
                <span class="quiet">
                  {words.one.nobody} {chanceTold(place.unknown)}
                </span>
              )}
            </div>
            <Places places={place.parents} way={here} />
          </li>
        );
      })}
    </ul>
  );
}

function Chicks({ birds, of }: { birds: readonly KinBird[]; of: KinBird }) {
  const own = birds.flatMap((bird) => {
    const chance = bird.parents
      .filter((pair) => pair.sire === of.bird || pair.dam === of.bird)
      .reduce((sum, pair) => sum + pair.chance, 0);
    return chance > 0 ? [{ bird, chance }] : [];
  });
  if (own.length === 0) return null;
  return (
    <section class="section">
      <h2>{words.one.chicks}</h2>
      <ul class="kin-chicks">
        {own.map(({ bird, chance }) => (
          <li key={bird.bird}>
            <a href={`/families/kin/${bird.bird}`}>{bird.label}</a>
            {chance < 0.9995 && <span class="quiet"> {words.one.chickOf(chanceTold(chance))}</span>}
          </li>
        ))}
      </ul>
    </section>
  );
}
