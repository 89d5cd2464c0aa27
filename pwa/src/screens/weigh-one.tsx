// The scales: which bird, its weight, next; and how even the birds weighed that day are.
import { useMemo, useRef, useState } from "preact/hooks";
import { birds as birdsWords, bird as birdWords } from "../app/words/birds.ts";
import { capital } from "../app/words/capital.ts";
import { sexWord } from "../app/words/sexes.ts";
import { weighing as words } from "../app/words/weights.ts";
import { lotOf, type OneBird } from "../book/birds.ts";
import { isSensible } from "../book/flock-checks.ts";
import { ageOn } from "../book/hatch-ages.ts";
import { wornNow } from "../book/marks-in-use.ts";
import { counted, type Sex, type Weight, weightsOf } from "../book/weights.ts";
import { undo } from "../state/actions.ts";
import { standing } from "../state/standing.ts";
import { weighBird } from "../state/weighing.ts";
import { marksOfBird, regionIn, speciesOfBird } from "./bird-view.ts";
import { massUnit } from "./measures.ts";
import { batchName, batchNames } from "./names.ts";
import { Choice } from "./parts/choice.tsx";
import { MeasureField } from "./parts/measure-field.tsx";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { SelectField } from "./parts/select-field.tsx";
import { TextField } from "./parts/text-field.tsx";
import { readBirdMass } from "./read-mass.ts";
import { birdMassText } from "./scale-words.ts";
import type { Scope } from "./weigh-scope.ts";
import { WeighSoFar } from "./weigh-so-far.tsx";

const SEXES = ["unknown", "female", "male"] as const;

interface WeighOneProps {
  readonly scope: Scope;
  readonly birds: ReadonlyMap<string, OneBird>;
  readonly on: string;
  readonly first: OneBird | null;
}

export function WeighOne({ scope, birds, on, first }: WeighOneProps) {
  const totals = standing.value;
  const unit = massUnit(totals);
  const form = useRef<HTMLElement>(null);
  const [lotId, setLotId] = useState(scope.lots[0]?.id ?? "");
  const [sex, setSex] = useState<Sex>("unknown");
  const [mark, setMark] = useState("");
  const [picked, setPicked] = useState<OneBird | null>(first);
  const [text, setText] = useState("");
  const [asked, setAsked] = useState(false);
  const numbered = useMemo(
    () => wornNow(totals).filter(({ lot, tag }) => tag?.text && scope.lots.some(({ id }) => id === lot)),
    [totals, scope],
  );
  const every = weightsOf(totals, birds);
  const done = new Set(every.filter((one) => one.on === on && one.bird !== null).map((one) => one.bird));
  const found = mark.trim() ? scope.birds.filter((one) => wears(one, mark)) : [];
  const exact = found.filter((one) => bears(one, mark));
  const bird = picked ?? (exact.length === 1 ? (exact[0] ?? null) : null);
  const chickOf = bird ? null : lotWithNumber(mark);
  const lot = bird ? (lotOf(bird.body) ?? "") : (chickOf ?? lotId);
  const itsSex = bird && bird.body.sex !== "unknown" ? bird.body.sex : sex;
  const massG = readBirdMass(text, unit);
  const group = counted(every).filter((one) => one.on === on && one.lot === lot && one.sex === itsSex);
  const fault = !asked ? null : text.trim() === "" ? words.need : massG === null ? words.number : null;
  const species = bird ? speciesOfBird(totals, bird) : speciesOfLot(lot);

  const next = () => {
    setAsked(true);
    if (massG === null) return;
    void weighBird({ lot, bird: bird?.id ?? null, sex: itsSex, massG, on });
    setText("");
    setMark("");
    setPicked(null);
    setAsked(false);
    // Back to the first field of the next bird, without a tap.
    form.current?.querySelector<HTMLInputElement>("input")?.focus();
  };

  return (
    <section ref={form} aria-label={words.over}>
      {scope.lots.length > 1 && !bird && (
        <SelectField
          label={words.lots}
          value={lotId}
          options={[...batchNames(totals, scope.lots)].map(([value, name]) => ({ value, text: name }))}
          onChoose={setLotId}
        />
      )}
      {(scope.birds.length > 0 || numbered.length > 0) && !picked && (
        <>
          <TextField label={words.mark} value={mark} onType={setMark} capitals="characters" most={20} />
          {mark.trim() !== "" && found.length === 0 && <p class="quiet section-note">{words.nobodyWith}</p>}
        </>
      )}
      {chickOf && <p class="live-figure">{words.chickOf(batchName(totals, totals.lots.get(chickOf)))}</p>}
      {bird && (
        <p class="live-figure">
          {words.picked(bird.label)}{" "}
          {picked && (
            <Press kind="bare" onPress={() => setPicked(null)}>
              {words.unpick}
            </Press>
          )}
        </p>
      )}
      <MeasureField
        label={words.weight(unit)}
        text={text}
        onType={setText}
        fault={fault}
        onEnter={next}
        {...(unit === "oz" ? { hint: words.pounds } : {})}
      />
      <div class="acts mark-keys">
        <Press kind="main" counts onPress={next}>
          {words.next}
        </Press>
      </div>
      <Odd weight={every.filter((one) => one.on === on && !one.sensible).at(-1)} />
      <WeighSoFar
        group={group}
        last={every.filter((one) => one.on === on && isOf(one)).at(-1) ?? null}
        birds={birds}
      />
      {!(bird && bird.body.sex !== "unknown") && (
        <>
          <Choice
            label={words.sex}
            value={sex}
            options={SEXES.map((value) => ({
              value,
              text:
                value === "unknown"
                  ? birdWords.sexes.unknown
                  : capital(sexWord(value, species, regionIn(totals))),
            }))}
            onChoose={setSex}
          />
          <p class="quiet section-note">{words.sexHint}</p>
        </>
      )}
      {scope.birds.length > 0 && !picked && (
        <details>
          <summary>{words.pick}</summary>
          <div class="choice">
            {(mark.trim() ? found : scope.birds).map((one) => (
              <Press key={one.id} onPress={() => setPicked(one)}>
                {done.has(one.id) ? `${one.label} ✓` : one.label}
              </Press>
            ))}
          </div>
        </details>
      )}
    </section>
  );

  function speciesOfLot(id: string): string {
    const known = totals.lots.get(id);
    return (
      totals.settings.get(known?.setting ?? "")?.species ??
      totals.families.get(known?.family ?? "")?.species ??
      "chicken"
    );
  }

  /** The batch of a chick that wears a number and is no bird of its own yet. */
  function lotWithNumber(said: string): string | null {
    const plain = said.trim().toLowerCase();
    return numbered.find(({ tag }) => tag?.text?.toLowerCase() === plain)?.lot ?? null;
  }

  /** Whether the mark or name holds what was typed. */
  function wears(one: OneBird, said: string): boolean {
    return [one.label, ...marksOfBird(totals, one)]
      .join(" ")
      .toLowerCase()
      .includes(said.trim().toLowerCase());
  }

  /** Whether it is just this number or name. */
  function bears(one: OneBird, said: string): boolean {
    const plain = said.trim().toLowerCase();
    const tags = (one.body.tags ?? []).map((tag) => tag.text?.toLowerCase());
    return (
      one.body.name?.toLowerCase() === plain || tags.includes(plain) || one.label.toLowerCase() === plain
    );
  }

  function isOf(one: Weight): boolean {
    return scope.lots.some(({ id }) => id === one.lot) || scope.birds.some(({ id }) => id === one.bird);
  }
}

/** A weight of that day that no bird of its age has: kept, and said at once. */
function Odd({ weight }: { weight: Weight | undefined }) {
  const totals = standing.value;
  if (!weight) return null;
  const age = ageOn(totals, totals.lots.get(weight.lot), weight.on);
  if (isSensible(weight.massG, age)) return null;
  const mass = birdMassText(weight.massG, massUnit(totals));
  const old = age === null ? words.oddNoAge : words.oddAge(birdsWords.days(age));
  return (
    <Notice tone="watch" live>
      <p>
        {batchName(totals, totals.lots.get(weight.lot))}: {words.odd(mass, old)}
      </p>
      <Press kind="bare" name={`${words.undo}: ${mass}`} onPress={() => void undo(weight.entry)}>
        {words.undo}
      </Press>
    </Notice>
  );
}
