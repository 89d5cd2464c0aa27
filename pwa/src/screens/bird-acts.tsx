// What a keeper does with one bird: name and sex put right, it leaves, comes back, is treated; a note.
import { useState } from "preact/hooks";
import { bird as words } from "../app/words/birds.ts";
import { judging } from "../app/words/judging.ts";
import { never } from "../app/words/never.ts";
import type { OneBird } from "../book/birds.ts";
import { record } from "../state/actions.ts";
import { birdBack, changeBird } from "../state/birds.ts";
import { BirdJudge } from "./bird-judge.tsx";
import { BirdsLeave } from "./bird-leaves.tsx";
import { BirdNever } from "./bird-never.tsx";
import { Choice } from "./parts/choice.tsx";
import { FormEnd } from "./parts/form-end.tsx";
import { Press } from "./parts/press.tsx";
import { TextField } from "./parts/text-field.tsx";

const SEXES = ["male", "female", "unknown"] as const;
type Open = "change" | "leaves" | "note" | "judge" | "never" | null;

export function BirdActs({ bird, today }: { bird: OneBird; today: string }) {
  const [open, setOpen] = useState<Open>(null);
  const toggle = (what: Exclude<Open, null>, text: string) => (
    <Press kind="plain" expanded={open === what} onPress={() => setOpen(open === what ? null : what)}>
      {text}
    </Press>
  );
  return (
    <>
      <div class="acts">
        {bird.where === "here" && (
          <a class="press firm" href={`/birds/weigh?who=bird:${bird.id}`}>
            {words.weigh}
          </a>
        )}
        {toggle("note", words.note)}
        {bird.where === "here" && toggle("judge", judging.link)}
        {toggle("change", words.change)}
        {bird.where === "here" && bird.body.sex !== "unknown" && toggle("never", never.link)}
        {bird.where === "here" && (
          <a class="press plain" href={`/birds/treatments?bird=${bird.id}`}>
            {words.treat}
          </a>
        )}
        {bird.where === "here" ? (
          toggle("leaves", words.leaves)
        ) : (
          <Press kind="plain" onPress={() => void birdBack(bird.id, today)}>
            {words.back}
          </Press>
        )}
      </div>
      {open === "leaves" && <BirdsLeave birds={[bird]} onDone={() => setOpen(null)} />}
      {open === "change" && <Change bird={bird} onDone={() => setOpen(null)} />}
      {open === "judge" && (
        <BirdJudge bird={bird.id} label={bird.label} today={today} onDone={() => setOpen(null)} />
      )}
      {open === "never" && (
        <BirdNever key={bird.body.carries?.join()} bird={bird} onDone={() => setOpen(null)} />
      )}
      {open === "note" && <Note bird={bird} onDone={() => setOpen(null)} />}
    </>
  );
}

interface FormProps {
  readonly bird: OneBird;
  readonly onDone: () => void;
}

function Change({ bird, onDone }: FormProps) {
  const [name, setName] = useState(bird.body.name ?? "");
  const [sex, setSex] = useState(bird.body.sex);
  const save = () => {
    void changeBird(bird.id, { name: name.trim() || null, sex });
    onDone();
  };
  return (
    <section class="section" aria-label={words.change}>
      <h2>{words.change}</h2>
      <TextField label={words.name} value={name} onType={setName} hint={words.nameHint} capitals="words" />
      <Choice
        label={words.sex}
        value={sex}
        options={SEXES.map((value) => ({ value, text: words.sexes[value] }))}
        onChoose={setSex}
      />
      <FormEnd save={words.save} onSave={save} onCancel={onDone} />
    </section>
  );
}

function Note({ bird, onDone }: FormProps) {
  const [text, setText] = useState("");
  const said = text.trim();
  const save = () => {
    if (!said) return;
    void record("note", { about: bird.id, text: said });
    onDone();
  };
  return (
    <section class="section" aria-label={words.note}>
      <TextField label={words.note} value={text} most={400} onType={setText} onEnter={save} />
      <FormEnd save={words.noteSave} off={!said} onSave={save} onCancel={onDone} />
    </section>
  );
}
