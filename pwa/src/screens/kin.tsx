// The state of the flock and the kinship of its birds: what each breed still keeps, and how sure that is.
import { useEffect, useState } from "preact/hooks";
import { answers, pct } from "../app/words/answers.ts";
import { kin as words } from "../app/words/kin.ts";
import { askFamily, familyTold } from "../state/bird-reports.ts";
import { askFlock, flockTold } from "../state/breeding-reports.ts";
import type { FlockBreed, FlockReport, KinBird, KinReport } from "../state/kin-report.ts";
import { Page } from "./page.tsx";
import { Choice } from "./parts/choice.tsx";
import { Wide } from "./parts/wide.tsx";
import { AnswerProblems, PrintPress, Stale, ToldAnswer } from "./told-answer.tsx";

const oneDigit = (figure: number) =>
  new Intl.NumberFormat(undefined, { maximumFractionDigits: 1 }).format(figure);

export function KinScreen() {
  const ask = () => {
    void askFamily();
    void askFlock();
  };
  useEffect(ask, []);
  const flock = flockTold.value.kind === "unpaired" ? null : flockTold.value.report;
  return (
    <ToldAnswer answer={familyTold.value} title={words.waiting} again={ask}>
      {(report, when) => <Kin report={report} flock={flock} when={when} />}
    </ToldAnswer>
  );
}

function Kin({ report, flock, when }: { report: KinReport; flock: FlockReport | null; when: string }) {
  const [first] = flock?.breeds ?? [];
  const headline =
    report.birds.length === 0
      ? words.nobody
      : first
        ? words.keeps(first.breed, first.diversity)
        : words.waiting;
  return (
    <Page
      headline={headline}
      over={answers.over(when)}
      under={report.birds.length === 0 ? words.nobodyRemedy : null}
      beside={<PrintPress />}
      wide
    >
      <Stale answer={familyTold.value} when={when} />
      <div class="acts no-print">
        <a class="press main" href="/pairing">
          {words.pairing}
        </a>
        <a class="press plain" href="/families/keep">
          {words.choosing}
        </a>
        <a class="press plain" href="/plan">
          {words.wished}
        </a>
      </div>
      {(flock?.breeds ?? []).map((breed) => (
        <Breed key={breed.breed} breed={breed} />
      ))}
      {report.birds.length > 0 && <Birds birds={report.birds} />}
      {report.warnings.length > 0 && (
        <section class="section">
          <h2>{words.warnings}</h2>
          <ul class="rows">
            {report.warnings.map((told) => (
              <li key={told}>{told}</li>
            ))}
          </ul>
        </section>
      )}
      <AnswerProblems problems={report.problems} />
    </Page>
  );
}

function Breed({ breed }: { breed: FlockBreed }) {
  return (
    <section class="section">
      <h2>{breed.breed}</h2>
      {breed.words.map((told) => (
        <p key={told}>{told}</p>
      ))}
      <p class="quiet">
        {breed.size !== null && words.size(oneDigit(breed.size))}{" "}
        {breed.sizeSoFar !== null && words.sizeSoFar(oneDigit(breed.sizeSoFar))}{" "}
        {breed.founderEquivalents !== null &&
          breed.founderGenomes !== null &&
          words.founders(oneDigit(breed.founderEquivalents), oneDigit(breed.founderGenomes))}
      </p>
      {breed.atRisk.map((one) => (
        <p key={one.label}>{words.atRisk(one.label, one.descendants)}</p>
      ))}
    </section>
  );
}

const SHOWN = ["here", "all"] as const;

function Birds({ birds }: { birds: readonly KinBird[] }) {
  const [shown, setShown] = useState<(typeof SHOWN)[number]>("here");
  const told = birds
    .filter((bird) => shown === "all" || bird.where !== "gone")
    .sort((a, b) => (a.meanKinship ?? 9) - (b.meanKinship ?? 9) || a.label.localeCompare(b.label));
  return (
    <section class="section">
      <h2>{words.birds}</h2>
      <div class="no-print">
        <Choice
          label={words.show}
          labelHidden
          value={shown}
          options={SHOWN.map((value) => ({ value, text: words.shown[value] }))}
          onChoose={setShown}
        />
      </div>
      <Wide label={words.birds}>
        <table class="kin">
          <thead>
            <tr>
              <th scope="col">{words.bird}</th>
              <th scope="col">{words.inbreeding}</th>
              <th scope="col" class="r">
                {words.generations}
              </th>
              <th scope="col" class="r">
                {words.kinship}
              </th>
            </tr>
          </thead>
          <tbody>
            {told.map((bird) => (
              <tr key={bird.bird}>
                <th scope="row">
                  <a href={`/families/kin/${bird.bird}`}>{bird.label}</a>
                  {bird.where === "gone" && <span class="quiet"> {words.gone}</span>}
                  {bird.where === "lent" && <span class="quiet"> {words.lent}</span>}
                </th>
                <td>
                  {words.inbreedingTold(bird.inbreeding)}
                  {bird.inbreeding !== null && bird.high - bird.low > 0.0005 && (
                    <span class="quiet"> {words.range(pct(bird.low), pct(bird.high))}</span>
                  )}
                </td>
                <td class="r">{oneDigit(bird.generations)}</td>
                <td class="r">{bird.meanKinship === null ? "" : bird.meanKinship.toFixed(3)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
      <p class="small quiet section-note">{words.note}</p>
    </section>
  );
}
