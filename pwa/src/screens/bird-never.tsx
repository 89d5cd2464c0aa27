// Whom a bird is never paired with, by itself or by what it carries; and what that is.
import { useState } from "preact/hooks";
import { everywhere } from "../app/words/everywhere.ts";
import { never as words } from "../app/words/never.ts";
import { birdId, birdsOf, type OneBird } from "../book/birds.ts";
import { changeBird } from "../state/birds.ts";
import { allowAgain, type Never, neverPaired, ruleOut } from "../state/never-pair.ts";
import { standing } from "../state/standing.ts";
import { Press } from "./parts/press.tsx";
import { SelectField } from "./parts/select-field.tsx";
import { TextField } from "./parts/text-field.tsx";

const plain = (text: string) => text.trim().toLowerCase();

export function BirdNever({ bird, onDone }: { bird: OneBird; onDone: () => void }) {
  const totals = standing.value;
  const carries = bird.body.carries ?? [];
  const [typed, setTyped] = useState(carries.join(", "));
  const birds = birdsOf(totals, null);
  const named = (text: string) => birds.get(birdId(totals, text))?.label ?? text;
  const isOwn = (text: string) =>
    birdId(totals, text) === bird.id || carries.some((one) => plain(one) === plain(text));
  const rules = neverPaired().filter(([one, other]) => isOwn(one) || isOwn(other));
  const read = typed
    .split(",")
    .map((text) => text.trim())
    .filter(Boolean);
  return (
    <section class="section" aria-label={words.title(bird.label)}>
      <h2>{words.title(bird.label)}</h2>
      <p class="section-note">{words.under}</p>
      <TextField label={words.carries} value={typed} onType={setTyped} hint={words.carriesHint} most={200} />
      {read.join() !== carries.join() && (
        <div class="acts">
          <Press kind="plain" onPress={() => void changeBird(bird.id, { carries: read })}>
            {words.carriesSave}
          </Press>
        </div>
      )}
      {totals.heads.keeper?.length ? (
        <RuleOut bird={bird} birds={[...birds.values()]} />
      ) : (
        <p>
          {words.needHolding} <a href="/holding">{words.toHolding}</a>
        </p>
      )}
      <h3>{words.all}</h3>
      {rules.length === 0 && <p class="quiet">{words.none}</p>}
      <ul class="rows">
        {rules.map((rule) => (
          <Rule key={rule.join()} rule={rule} named={named} />
        ))}
      </ul>
      <div class="acts">
        <Press kind="plain" onPress={onDone}>
          {everywhere.done}
        </Press>
      </div>
    </section>
  );
}

function Rule({ rule, named }: { rule: Never; named: (text: string) => string }) {
  const told = words.rule(named(rule[0]), named(rule[1]), rule[2]);
  return (
    <li class="head">
      <span>{told}</span>
      <Press kind="bare" name={`${words.allow}: ${told}`} onPress={() => void allowAgain(rule)}>
        {words.allow}
      </Press>
    </li>
  );
}

/** Options are named by what stands in the book: a bird's id, or what birds carry. */
function RuleOut({ bird, birds }: { bird: OneBird; birds: readonly OneBird[] }) {
  const carries = bird.body.carries ?? [];
  const [what, setWhat] = useState(bird.id);
  const [other, setOther] = useState("");
  const [why, setWhy] = useState("");
  const traits = [...new Set(birds.flatMap(({ body }) => body.carries ?? []).map(plain))].sort();
  const others = birds
    .filter(({ id, where, body }) => id !== bird.id && where === "here" && body.sex !== bird.body.sex)
    .sort((a, b) => a.label.localeCompare(b.label));
  const add = () => {
    if (!other) return;
    void ruleOut([what, other, why.trim()]);
    setOther("");
    setWhy("");
  };
  return (
    <>
      {carries.length > 0 && (
        <SelectField
          label={words.what}
          value={what}
          options={[
            { value: bird.id, text: words.itself },
            ...carries.map((text) => ({ value: plain(text), text: words.trait(plain(text)) })),
          ]}
          onChoose={setWhat}
        />
      )}
      <SelectField
        label={words.with}
        value={other}
        options={[
          { value: "", text: words.choose },
          ...others.map(({ id, label }) => ({ value: id, text: label })),
          ...traits.map((text) => ({ value: text, text: words.trait(text) })),
        ]}
        onChoose={setOther}
      />
      <TextField label={words.why} value={why} onType={setWhy} most={120} onEnter={add} />
      <div class="acts">
        <Press kind="main" off={!other} onPress={add}>
          {words.add}
        </Press>
      </div>
    </>
  );
}
