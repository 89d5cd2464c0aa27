// Chicks that are kept: one by one with its own mark, or several alike with numbers in a row.
import { useState } from "preact/hooks";
import { birds as birdWords, bird as oneWords } from "../app/words/birds.ts";
import { capital } from "../app/words/capital.ts";
import { choosing as words } from "../app/words/choosing.ts";
import { everywhere } from "../app/words/everywhere.ts";
import { marks as markWords, websInWords } from "../app/words/marks.ts";
import { sexCount, sexWord } from "../app/words/sexes.ts";
import type { Bird, Tag } from "../book/bodies.generated.ts";
import { living } from "../book/marks.ts";
import { wornNow } from "../book/marks-in-use.ts";
import { marksOfLots } from "../book/marks-of-lots.ts";
import type { Lot, Standing } from "../book/standing.ts";
import { undo } from "../state/actions.ts";
import { keepChicks } from "../state/birds.ts";
import { onScreen } from "../state/recording.ts";
import { standing } from "../state/standing.ts";
import { type Pattern, patternKey, patternOf } from "../trade/marks.ts";
import { regionIn } from "./bird-view.ts";
import { sameNumber, whoseWords } from "./mark-view.ts";
import { numbersFrom } from "./numbers-from.ts";
import { Choice } from "./parts/choice.tsx";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { Stepper } from "./parts/stepper.tsx";
import { TextField } from "./parts/text-field.tsx";
import { UndoNotice } from "./parts/undo-notice.tsx";
import { TagFields, type TagTyped, tagTyped } from "./tag-fields.tsx";

const SEXES = ["female", "male", "unknown"] as const;

interface ChooseKeptProps {
  readonly lot: Lot;
  readonly species: string;
  readonly hatchedOn: string | null;
  readonly most: number;
}

export function ChooseKept({ lot, species, hatchedOn, most }: ChooseKeptProps) {
  const totals = standing.value;
  const region = regionIn(totals);
  const [sex, setSex] = useState<Bird["sex"]>("female");
  const [many, setMany] = useState(1);
  const [typed, setTyped] = useState<TagTyped>({ kind: "ring", colour: "", leg: "left", text: "" });
  const [name, setName] = useState("");
  const [last, setLast] = useState<{ readonly ids: readonly string[]; readonly n: number } | null>(null);
  const n = Math.min(many, most);
  const numbers = numbersFrom(typed.text, n);
  const tags = numbers.map((text): Tag | null => tagTyped({ ...typed, text }));
  const webs = websOf(totals, lot);
  const twice = tags.flatMap((tag) => (tag?.text ? sameNumber(wornNow(totals), tag) : []));
  const save = () => {
    const kept = tags.map((tag) => ({
      sex,
      tag,
      ...(webs.length > 0 ? { webs: [...webs] } : {}),
      ...(n === 1 && name.trim() ? { name: name.trim() } : {}),
    }));
    const entries = onScreen(() => keepChicks(lot, kept, hatchedOn));
    if (entries.length === 0) return;
    setLast({ ids: entries.map(({ id }) => id), n: kept.length });
    setTyped({ ...typed, text: numbersFrom(typed.text, n + 1)[n] ?? "" });
    setMany(1);
    setName("");
  };
  return (
    <section class="section" aria-label={words.ways.keep}>
      {last && (
        <UndoNotice
          said={words.keptSaid(last.n)}
          word={words.undo}
          onUndo={() => {
            void undo(...last.ids);
            setLast(null);
          }}
        />
      )}
      <Choice
        label={words.sex}
        value={sex}
        options={SEXES.map((value) => ({
          value,
          text: value === "unknown" ? oneWords.sexes.unknown : capital(sexWord(value, species, region)),
        }))}
        onChoose={setSex}
      />
      <TagFields typed={typed} onType={setTyped} label={words.tag} />
      <div class="field">
        <span class="label">{words.many}</span>
        <Stepper label={words.many} value={n} least={1} most={most} onChange={setMany} words={everywhere} />
        {n > 1 && typed.text.trim() && (
          <span class="hint">{words.numberHint(numbers[0] ?? "", numbers.at(-1) ?? "")}</span>
        )}
      </div>
      {n === 1 && (
        <TextField
          label={words.name}
          value={name}
          onType={setName}
          hint={oneWords.nameHint}
          capitals="words"
        />
      )}
      {webs.length > 0 && <p class="quiet section-note">{words.webs(websInWords(webs))}</p>}
      {twice.length > 0 && (
        <Notice tone="watch" live>
          <p>{markWords.ring.twice(whoseWords(totals, twice))}</p>
        </Notice>
      )}
      <div class="acts mark-keys">
        <Press kind="main" onPress={save}>
          {words.keep(sex === "unknown" ? birdWords.plain(n) : sexCount(n, sex, species, region))}
        </Press>
      </div>
    </section>
  );
}

/** The webs that all living chicks of a batch wear; none where they differ or some wear none. */
function websOf(totals: Standing, lot: Lot): Pattern {
  const given = (marksOfLots(totals.heads).get(lot.id) ?? []).filter((mark) => !mark.recheck && !mark.again);
  const patterns = given.map(({ webs }) => patternOf(webs));
  const [first = []] = patterns;
  const marked = given.reduce((sum, { n }) => sum + (n ?? living(lot)), 0);
  const isOne = patterns.every((one) => patternKey(one) === patternKey(first));
  return isOne && marked >= living(lot) ? first : [];
}
