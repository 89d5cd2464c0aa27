// A bird got in: a cock that was with the hens of a pen for a day or some, as a candidate father of their eggs.
import { useState } from "preact/hooks";
import { pens as words } from "../app/words/pens.ts";
import { birdsOf } from "../book/birds.ts";
import { birdsOfPen, type PenStay } from "../book/pen-stays.ts";
import { record } from "../state/actions.ts";
import { standing } from "../state/standing.ts";
import { familyOfBird } from "./bird-view.ts";
import { useDay } from "./own-day.ts";
import { DayField } from "./parts/day-field.tsx";
import { FormEnd } from "./parts/form-end.tsx";
import { readDecimal } from "./parts/read-number.ts";
import { SelectField } from "./parts/select-field.tsx";
import { TextField } from "./parts/text-field.tsx";
import { penName } from "./pen-name.ts";
import { isDay } from "./told-day.ts";

interface PenVisitProps {
  readonly pen: PenStay;
  readonly today: string;
  readonly onDone: () => void;
}

export function PenVisit({ pen, today, onDone }: PenVisitProps) {
  const totals = standing.value;
  const own = birdsOfPen(totals, pen);
  const cocks = [...birdsOf(totals, today).values()].filter(
    ({ id, where, body }) => where === "here" && body.sex === "male" && !own.has(id),
  );
  const [bird, setBird] = useState(cocks[0]?.id ?? "");
  const [from, setFrom] = useDay(today);
  const [until, setUntil] = useDay(today);
  const [part, setPart] = useState("");
  const [asked, setAsked] = useState(false);
  const share = readDecimal(part, 0, 100);
  const partFault = part.trim() !== "" && !share.ok ? words.form.noNumber : null;
  const noDay = !isDay(from) || !isDay(until);
  const title = words.visit.title(penName(totals, pen));
  const save = () => {
    setAsked(true);
    if (noDay || until < from || partFault) return;
    void record("penned", {
      family: pen.family,
      ...(pen.place ? { place: pen.place } : {}),
      since: from,
      until,
      sires: [{ bird, ...(share.ok ? { share: share.value / 100 } : {}) }],
      dams: [],
    });
    onDone();
  };
  return (
    <section class="section" aria-label={title}>
      <h3>{title}</h3>
      {cocks.length === 0 ? (
        <p class="fault">{words.visit.noCock}</p>
      ) : (
        <SelectField
          label={words.visit.who}
          value={bird}
          options={cocks.map((one) => ({
            value: one.id,
            text: `${one.label}, ${familyOfBird(totals, one)}`,
          }))}
          onChoose={setBird}
        />
      )}
      <div class="pair">
        <DayField label={words.visit.from} value={from} onType={setFrom} />
        <DayField
          label={words.visit.until}
          value={until}
          onType={setUntil}
          fault={(asked && (noDay ? words.form.needDay : until < from && words.form.order)) || null}
        />
      </div>
      <TextField
        label={words.visit.part}
        value={part}
        onType={setPart}
        hint={words.visit.partHint}
        inputMode="decimal"
        most={6}
        fault={asked ? partFault : null}
      />
      <p class="quiet section-note">{words.visit.note}</p>
      <FormEnd save={words.visit.save} off={cocks.length === 0} onSave={save} onCancel={onDone} />
    </section>
  );
}
