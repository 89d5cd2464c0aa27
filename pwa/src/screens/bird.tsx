// A bird's page: what it is, what it wears, who its parents can be, what it weighed, what was written of it.
import { birds as listWords, bird as words } from "../app/words/birds.ts";
import { marks } from "../app/words/marks.ts";
import { papers } from "../app/words/papers.ts";
import { birdId, birdsOf, lotOf, type OneBird } from "../book/birds.ts";
import { matters, treatmentsOfBird } from "../book/treatments.ts";
import { standing } from "../state/standing.ts";
import { BirdActs } from "./bird-acts.tsx";
import { BirdEvents } from "./bird-events.tsx";
import { BirdMarks } from "./bird-marks.tsx";
import { BirdParents } from "./bird-parents.tsx";
import { BirdPen } from "./bird-pen.tsx";
import { ageTold, apartUntil, familyOfBird, lastLeft, ringWord, sexOf } from "./bird-view.ts";
import { BirdWeights } from "./bird-weights.tsx";
import { HeldBack } from "./held-back.tsx";
import { batchName } from "./names.ts";
import { useNow } from "./now.ts";
import { Page } from "./page.tsx";
import { PaperLinks } from "./paper-links.tsx";
import { Notice } from "./parts/notice.tsx";
import { Photos } from "./photos.tsx";
import { dayInYear, dayTold } from "./told-day.ts";
import { dayKey } from "./told-time.ts";

export function BirdScreen({ id }: { id: string }) {
  const totals = standing.value;
  const today = dayKey(useNow(), totals.keeper.zone);
  const bird = birdsOf(totals, today).get(birdId(totals, id));
  if (!bird) {
    return (
      <Page headline={words.gone} under={words.goneRemedy}>
        <div class="acts">
          <a class="press main" href="/birds">
            {words.list}
          </a>
        </div>
      </Page>
    );
  }
  const age = ageTold(bird.body.hatched_on, today);
  const apart = apartUntil(totals, bird.id, today);
  const treated = treatmentsOfBird(totals, bird);
  const headline = [sexOf(totals, bird), bird.where === "gone" ? null : age && listWords.old(age)];
  return (
    <Page
      over={familyOfBird(totals, bird)}
      headline={`${bird.label}: ${headline.filter(Boolean).join(", ")}`}
      under={underOf(bird, today)}
    >
      {apart && <Notice>{listWords.apart(dayTold(apart))}</Notice>}
      <HeldBack
        treatments={treated.filter((one) => matters(one, today))}
        today={today}
        whose={() => bird.label}
      />
      <BirdActs key={bird.id} bird={bird} today={today} />
      <BirdMarks bird={bird.id} ring={ringWord(totals)} />
      {bird.where !== "gone" && (
        <div class="acts">
          <a class="press plain" href={`/mark/${bird.id}`}>
            {marks.mark}
          </a>
        </div>
      )}
      {bird.where === "here" && <BirdPen bird={bird} today={today} />}
      <BirdParents bird={bird} />
      <PaperLinks
        of={bird.label}
        links={[
          { path: `papers/pedigree/${bird.id}.pdf`, what: papers.bird },
          { path: `exports/bird/${bird.id}.zip`, what: papers.going },
        ]}
      />
      <BirdWeights bird={bird} />
      <BirdEvents bird={bird} />
      <Photos
        about={bird.id}
        isOurs={(about) => birdId(totals, about) === bird.id}
        where={words.photoOf(bird.label)}
      />
      <div class="acts">
        <a class="press plain" href="/birds">
          {words.list}
        </a>
      </div>
    </Page>
  );
}

/** When it hatched, from which batch or holding; where it is, if not here. */
function underOf(bird: OneBird, today: string): string {
  const totals = standing.value;
  const { hatched_on, origin } = bird.body;
  const lot = totals.lots.get(lotOf(bird.body) ?? "");
  const left = bird.where === "here" ? null : lastLeft(totals, bird.id);
  return [
    left ? words.whereNow[left.how](left.to ?? "", dayInYear(left.on, today)) : null,
    hatched_on ? words.hatched(dayInYear(hatched_on, today)) : words.hatchedUnknown,
    lot ? words.batch(batchName(totals, lot)) : null,
    origin ? words.from(origin.holding) : null,
  ]
    .filter(Boolean)
    .map((said) => `${said}.`)
    .join(" ");
}
