// One treatment: whom, with what, from when; the days until which eggs and meat are not for eating, as typed.
import { useState } from "preact/hooks";
import { treating as words } from "../app/words/treating.ts";
import { birdId, birdsOf } from "../book/birds.ts";
import type { Treated } from "../book/bodies.generated.ts";
import { living } from "../book/marks.ts";
import { standing } from "../state/standing.ts";
import { IONOPHORES } from "../trade/movements.ts";
import { familyOfBird } from "./bird-view.ts";
import { treatedWho } from "./held-back.tsx";
import { batchNames } from "./names.ts";
import { useDay } from "./own-day.ts";
import { Choice } from "./parts/choice.tsx";
import { DayField } from "./parts/day-field.tsx";
import { FormEnd } from "./parts/form-end.tsx";
import { SelectField } from "./parts/select-field.tsx";
import { TextField } from "./parts/text-field.tsx";
import { isDay } from "./told-day.ts";

const ABOUTS = ["bird", "lot", "place"] as const;
type About = (typeof ABOUTS)[number];

interface TreatFormProps {
  readonly start?: Readonly<Treated>;
  /** The bird that is meant, where the keeper came from its page. */
  readonly bird: string | null;
  readonly today: string;
  readonly onSave: (body: Treated) => void;
  readonly onCancel: () => void;
}

export function TreatForm({ start, bird, today, onSave, onCancel }: TreatFormProps) {
  const choices = whoToTreat(today);
  const begun = ABOUTS.find((one) => start?.[one]) ?? ABOUTS.find((one) => choices[one].length > 0) ?? "bird";
  const [about, setAbout] = useState<About>(bird ? "bird" : begun);
  const [which, setWhich] = useState(ownSubject(bird ? "bird" : begun, bird, start)?.value ?? "");
  const [product, setProduct] = useState(start?.product ?? "");
  const [batch, setBatch] = useState(start?.batch ?? "");
  const [reason, setReason] = useState(start?.reason ?? "");
  const [by, setBy] = useState(start?.by ?? "");
  const [from, setFrom] = useDay(today, start?.from.slice(0, 10));
  const [until, setUntil] = useState(start?.until?.slice(0, 10) ?? "");
  const [noEggs, setNoEggs] = useState(start?.no_eggs_until ?? "");
  const [noMeat, setNoMeat] = useState(start?.no_meat_until ?? "");
  const [asked, setAsked] = useState(false);
  const own = ownSubject(about, bird, start);
  const known = [
    ...choices[about],
    ...(own && !choices[about].some(({ value }) => value === own.value) ? [own] : []),
  ];
  const chosen = known.some(({ value }) => value === which) ? which : (known[0]?.value ?? "");
  const odd = [until, noEggs, noMeat].some((day) => isDay(day) && isDay(from) && day < from);
  const save = () => {
    setAsked(true);
    if (!product.trim() || !chosen || !isDay(from)) return;
    const texts = { batch, reason, by };
    const days = { until, no_eggs_until: noEggs, no_meat_until: noMeat };
    onSave({
      [about]: chosen,
      product: product.trim(),
      from,
      ...filled(texts, (text) => text.trim() !== ""),
      ...filled(days, isDay),
    });
  };
  return (
    <section class="section" aria-label={words.add}>
      <Choice
        label={words.about}
        value={about}
        options={ABOUTS.map((value) => ({ value, text: words.abouts[value] }))}
        onChoose={setAbout}
      />
      {known.length > 0 ? (
        <SelectField label={words.which} value={chosen} options={known} onChoose={setWhich} />
      ) : (
        <p class="fault">{words.needWho}</p>
      )}
      <TextField
        label={words.product}
        value={product}
        onType={setProduct}
        fault={asked && !product.trim() ? words.needProduct : null}
      />
      <div class="pair">
        <TextField label={words.batch} value={batch} onType={setBatch} capitals="characters" />
        <TextField label={words.by} value={by} onType={setBy} capitals="words" />
      </div>
      <TextField label={words.reason} value={reason} onType={setReason} />
      <div class="pair">
        <DayField label={words.from} value={from} onType={setFrom} />
        <DayField label={words.until} value={until} onType={setUntil} />
      </div>
      <div class="pair">
        <DayField label={words.noEggs} value={noEggs} onType={setNoEggs} />
        <DayField label={words.noMeat} value={noMeat} onType={setNoMeat} />
      </div>
      <p class="quiet section-note">{words.hint}</p>
      {odd && (
        <p class="fault" role="status">
          {words.order}
        </p>
      )}
      <p class="section-note">
        {IONOPHORES.value} {words.label}
      </p>
      <FormEnd save={words.save} off={!chosen} onSave={save} onCancel={onCancel} />
    </section>
  );
}

interface Chosen {
  readonly value: string;
  readonly text: string;
}
type Choices = Readonly<Record<About, readonly Chosen[]>>;

/** Everything that can be treated now. */
function whoToTreat(today: string): Choices {
  const totals = standing.value;
  const birds = [...birdsOf(totals, today).values()].filter(({ where }) => where === "here");
  const lots = [...totals.lots.values()].filter((lot) => living(lot) > 0);
  return {
    bird: birds.map((one) => ({ value: one.id, text: `${one.label}, ${familyOfBird(totals, one)}` })),
    lot: [...batchNames(totals, lots)].map(([value, text]) => ({ value, text })),
    place: [...totals.places]
      .filter(([, { role }]) => ["brooder", "pen", "apart", "hen"].includes(role))
      .map(([value, { name }]) => ({ value, text: name })),
  };
}

/** Whom the entry, or the page the keeper came from, is about: it stays to be chosen where it is gone since. */
function ownSubject(about: About, bird: string | null, start: Readonly<Treated> | undefined): Chosen | null {
  const totals = standing.value;
  const named = about === "bird" ? (bird ?? start?.bird) : start?.[about];
  if (!named) return null;
  const value =
    about === "bird"
      ? birdId(totals, named)
      : about === "place"
        ? (totals.rootOf.get(named) ?? named)
        : named;
  return { value, text: treatedWho(totals, { [about]: value }) };
}

function filled(
  fields: Readonly<Record<string, string>>,
  fits: (text: string) => boolean,
): Record<string, string> {
  return Object.fromEntries(
    Object.entries(fields).flatMap(([name, text]) => (fits(text) ? [[name, text.trim()]] : [])),
  );
}
