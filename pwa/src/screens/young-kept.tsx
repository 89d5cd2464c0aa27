// Young birds to keep for breeding, the better of equals first, and those that may go.
import { useEffect } from "preact/hooks";
import { answers } from "../app/words/answers.ts";
import { youngKept as words } from "../app/words/young-kept.ts";
import { askChoosing, choosingTold } from "../state/breeding-reports.ts";
import type { ChoosingReport, YoungBird } from "../state/choosing-report.ts";
import { standing } from "../state/standing.ts";
import { useKept } from "./kept-wishes.ts";
import { type MassUnit, massText, massUnit } from "./measures.ts";
import { Page } from "./page.tsx";
import { Choice } from "./parts/choice.tsx";
import { SelectField } from "./parts/select-field.tsx";
import { Wide } from "./parts/wide.tsx";
import { AnswerProblems, PrintPress, Stale, ToldAnswer } from "./told-answer.tsx";

interface Keeping {
  readonly cocks: number | null;
  readonly hens: number | null;
  readonly by: string | null;
}

const MOST = 40;

export function YoungKeptScreen() {
  const [wishes, setWishes] = useKept<Keeping>("young", { cocks: null, hens: null, by: null });
  useEffect(() => void askChoosing(wishes), [wishes]);
  return (
    <ToldAnswer answer={choosingTold.value} title={words.waiting} again={() => void askChoosing(wishes)}>
      {(report, when) => <Choosing report={report} when={when} wishes={wishes} onWish={setWishes} />}
    </ToldAnswer>
  );
}

interface ChoosingProps {
  readonly report: ChoosingReport;
  readonly when: string;
  readonly wishes: Keeping;
  readonly onWish: (wishes: Keeping) => void;
}

function Choosing({ report, when, wishes, onWish }: ChoosingProps) {
  const { birds } = report;
  const kept = birds.filter((bird) => bird.keep);
  const count = (sex: string) => kept.filter((bird) => bird.sex === sex).length;
  const [, ...more] = report.words;
  const headline =
    birds.length === 0 ? words.none : words.headline(count("male"), count("female"), birds.length);
  return (
    <Page
      headline={headline}
      over={answers.over(when)}
      under={birds.length === 0 ? words.noneRemedy : null}
      beside={birds.length > 0 && <PrintPress />}
      wide
    >
      <Stale answer={choosingTold.value} when={when} />
      {birds.length > 0 && <WishesForm report={report} wishes={wishes} onWish={onWish} />}
      <BirdsTold title={words.keep} birds={kept} whys />
      <BirdsTold title={words.go} birds={birds.filter((bird) => !bird.keep)} />
      {birds.length > 0 && more.length > 0 && (
        <section class="section">
          <h2>{words.more}</h2>
          <ul class="rows">
            {more.map((told) => (
              <li key={told}>{told}</li>
            ))}
          </ul>
        </section>
      )}
      {birds.length > 0 && (
        <p class="small quiet section">
          {words.note} {words.cull}
        </p>
      )}
      <AnswerProblems problems={report.problems} />
    </Page>
  );
}

function WishesForm({ report, wishes, onWish }: Omit<ChoosingProps, "when">) {
  const numbers = Array.from({ length: MOST + 1 }, (_, n) => ({ value: String(n), text: String(n) }));
  const field = (label: string, name: "cocks" | "hens") => (
    <SelectField
      label={label}
      value={String(wishes[name] ?? "")}
      options={[{ value: "", text: words.asPens }, ...numbers]}
      onChoose={(value) => onWish({ ...wishes, [name]: value === "" ? null : Number(value) })}
    />
  );
  return (
    <section class="section no-print">
      <h2>{words.wishes}</h2>
      <div class="pens">
        {field(words.cocks, "cocks")}
        {field(words.hens, "hens")}
        <Choice
          label={words.by}
          value={report.by === "weight" ? "weight" : "score"}
          options={(["score", "weight"] as const).map((by) => ({ value: by, text: words.bys[by] }))}
          onChoose={(by) => onWish({ ...wishes, by })}
        />
      </div>
    </section>
  );
}

function BirdsTold({
  title,
  birds,
  whys = false,
}: {
  title: string;
  birds: readonly YoungBird[];
  whys?: boolean;
}) {
  if (birds.length === 0) return null;
  return (
    <section class="section">
      <h2>{title}</h2>
      <Wide label={title}>
        <table class="kin">
          <thead>
            <tr>
              <th scope="col">{words.bird}</th>
              <th scope="col">{words.weight}</th>
              <th scope="col" class="r">
                {words.score}
              </th>
            </tr>
          </thead>
          <tbody>
            {birds.map((bird) => (
              <tr key={bird.bird}>
                <th scope="row">
                  <a href={`/families/kin/${bird.bird}`}>{bird.label}</a>{" "}
                  <span class="quiet">{words.sexes[bird.sex] ?? bird.sex}</span>
                </th>
                <td>
                  {weightTold(bird)}
                  {bird.faults.length > 0 && (
                    <p class="quiet small">{words.faults(bird.faults.join(", "))}</p>
                  )}
                  {whys && <p class="quiet small">{bird.why}</p>}
                </td>
                <td class="r">{bird.score ?? ""}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
    </section>
  );
}

function weightTold(bird: YoungBird): string {
  const unit = massUnit(standing.value);
  if (bird.massG === null) return words.notWeighed;
  const mass = birdMass(bird.massG, unit);
  if (bird.aboveG === null) return words.alone(mass);
  return words.against(mass, birdMass(Math.abs(bird.aboveG), unit), bird.aboveG >= 0, bird.beside);
}

/** A scale for birds shows whole grams, or tenths of an ounce. */
const birdMass = (g: number, unit: MassUnit) => (unit === "oz" ? massText(g, unit) : `${Math.round(g)} g`);
