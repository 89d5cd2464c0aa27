// Birds from elsewhere: one bird, or chicks as a batch; from whom, when, and until when they are kept apart.
import { useState } from "preact/hooks";
import { birds as birdWords, bird as oneWords, coming as words } from "../app/words/birds.ts";
import { everywhere } from "../app/words/everywhere.ts";
import { safety } from "../app/words/safety.ts";
import { young } from "../app/words/species.ts";
import type { Bird, Came } from "../book/bodies.generated.ts";
import { undo } from "../state/actions.ts";
import { birdComes, chicksCome } from "../state/birds.ts";
import { onScreen } from "../state/recording.ts";
import { standing } from "../state/standing.ts";
import { APART, TURKEYS } from "../trade/movements.ts";
import { sourceTitle } from "../trade/sources.ts";
import { useNow } from "./now.ts";
import { OrderNotice } from "./order-notice.tsx";
import { useDay } from "./own-day.ts";
import { Page } from "./page.tsx";
import { Choice } from "./parts/choice.tsx";
import { DayField } from "./parts/day-field.tsx";
import { Press } from "./parts/press.tsx";
import { SelectField } from "./parts/select-field.tsx";
import { Stepper } from "./parts/stepper.tsx";
import { TextField } from "./parts/text-field.tsx";
import { UndoNotice } from "./parts/undo-notice.tsx";
import { TagFields, type TagTyped, tagTyped } from "./tag-fields.tsx";
import { isDay } from "./told-day.ts";
import { dayKey } from "./told-time.ts";

const WHATS = ["bird", "chicks"] as const;
const HOWS = ["bought", "given", "lent", "found"] as const;
const STAGES = ["brooding", "growing"] as const;
const SEXES = ["female", "male", "unknown"] as const;
const NO_TAG: TagTyped = { kind: "ring", colour: "", leg: "left", text: "" };

export function CameScreen() {
  const totals = standing.value;
  const today = dayKey(useNow(), totals.keeper.zone);
  const families = [...totals.families].sort(([, a], [, b]) => a.name.localeCompare(b.name));
  const homes = [...totals.places].filter(([, { role }]) =>
    ["brooder", "pen", "apart", "hen"].includes(role),
  );
  const [what, setWhat] = useState<(typeof WHATS)[number]>("bird");
  const [how, setHow] = useState<(typeof HOWS)[number]>("bought");
  const [from, setFrom] = useState("");
  const [family, setFamily] = useState("");
  const [sex, setSex] = useState<Bird["sex"]>("unknown");
  const [name, setName] = useState("");
  const [tag, setTag] = useState<TagTyped>(NO_TAG);
  const [breed, setBreed] = useState("");
  const [n, setN] = useState(6);
  const [stage, setStage] = useState<(typeof STAGES)[number]>("brooding");
  const [place, setPlace] = useState(homes[0]?.[0] ?? "");
  const [hatched, setHatched] = useState("");
  const [on, setOn] = useDay(today);
  const [apart, setApart] = useState("");
  const [last, setLast] = useState<readonly string[] | null>(null);
  const chicksOf = family || (what === "chicks" ? (families[0]?.[0] ?? "") : "");
  const species = totals.families.get(chicksOf)?.species ?? "chicken";
  const wrongDay = !isDay(on) || on > today || (hatched !== "" && hatched > on);
  const needsFamily = what === "chicks" && chicksOf === "";
  const save = () => {
    if (wrongDay || needsFamily) return;
    const who = from.trim();
    const about: Pick<Came, "on" | "how" | "from" | "apart_until"> = {
      on,
      how,
      ...(who ? { from: who } : {}),
      ...(isDay(apart) ? { apart_until: apart } : {}),
    };
    const born = isDay(hatched) ? { hatched_on: hatched } : {};
    const built = tagTyped(tag);
    const entries = onScreen(() =>
      what === "bird"
        ? birdComes(
            {
              sex,
              ...(name.trim() ? { name: name.trim() } : {}),
              ...(family ? { family } : {}),
              ...(!family && breed.trim() ? { breed: breed.trim() } : {}),
              ...born,
              ...(built ? { tags: [built] } : {}),
              ...(who ? { origin: { holding: who } } : {}),
            },
            about,
          )
        : chicksCome({ ...about, ...born, n, stage, family: chicksOf }, place || null),
    );
    if (entries.length === 0) return;
    setLast(entries.map(({ id }) => id));
    setName("");
    setTag({ ...tag, text: "" });
  };
  return (
    <Page headline={words.title}>
      {last && (
        <UndoNotice
          said={words.saved}
          word={words.undo}
          onUndo={() => {
            void undo(...last);
            setLast(null);
          }}
        />
      )}
      <OrderNotice today={today} />
      <Choice
        label={words.what}
        value={what}
        options={WHATS.map((value) => ({ value, text: words.whats[value] }))}
        onChoose={setWhat}
      />
      <Choice
        label={words.how}
        value={how}
        options={HOWS.map((value) => ({ value, text: words.hows[value] }))}
        onChoose={setHow}
      />
      <TextField label={words.from} value={from} onType={setFrom} hint={words.fromHint} capitals="words" />
      <SelectField
        label={words.family}
        value={what === "chicks" ? chicksOf : family}
        options={[
          ...(what === "bird" ? [{ value: "", text: words.noFamily }] : []),
          ...families.map(([value, one]) => ({ value, text: one.name })),
        ]}
        onChoose={setFamily}
      />
      {needsFamily && <p class="fault">{words.needFamily}</p>}
      {what === "bird" ? (
        <>
          {family === "" && (
            <TextField label={words.breed} value={breed} onType={setBreed} capitals="words" />
          )}
          <Choice
            label={oneWords.sex}
            value={sex}
            options={SEXES.map((value) => ({ value, text: oneWords.sexes[value] }))}
            onChoose={setSex}
          />
          <TextField
            label={oneWords.name}
            value={name}
            onType={setName}
            hint={oneWords.nameHint}
            capitals="words"
          />
          <TagFields label={oneWords.marks} typed={tag} onType={setTag} />
        </>
      ) : (
        <>
          <div class="field">
            <span class="label">{words.number}</span>
            <Stepper label={words.number} value={n} least={1} most={999} onChange={setN} words={everywhere} />
          </div>
          <Choice
            label={words.stage}
            value={stage}
            options={STAGES.map((value) => ({ value, text: words.stages[value] }))}
            onChoose={setStage}
          />
          {homes.length > 0 && (
            <SelectField
              label={words.place}
              value={place}
              options={[
                ...homes.map(([value, home]) => ({ value, text: home.name })),
                { value: "", text: words.noPlace },
              ]}
              onChoose={setPlace}
            />
          )}
        </>
      )}
      <div class="pair">
        <DayField label={words.on} value={on} max={today} onType={setOn} />
        <DayField label={words.hatched} value={hatched} max={on} onType={setHatched} />
      </div>
      {wrongDay && <p class="fault">{words.wrongDay}</p>}
      <DayField label={words.apart} value={apart} min={on} onType={setApart} />
      <details>
        <summary>{words.apartWhy}</summary>
        <ul class="rows">
          {APART.map(({ value, unit, source }) => (
            <li key={unit}>
              {words.apartFigure(typeof value === "number" ? String(value) : value.join("–"), unit)}{" "}
              <span class="quiet">{sourceTitle(source) ?? source}</span>
            </li>
          ))}
        </ul>
        <p>{words.apartHow}</p>
        {species === "turkey" && <p>{TURKEYS.value}</p>}
        <p class="quiet">{safety.rule}</p>
      </details>
      <div class="acts">
        <Press kind="main" off={wrongDay || needsFamily} onPress={save}>
          {what === "bird" ? words.saveBird : words.saveChicks(young(n, species))}
        </Press>
      </div>
      <div class="acts">
        <a class="press plain" href="/birds">
          {birdWords.link}
        </a>
      </div>
    </Page>
  );
}
