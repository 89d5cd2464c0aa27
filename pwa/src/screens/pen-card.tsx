// One pen that stands: who is in it since when, and what can change.
import { useState } from "preact/hooks";
import { capital } from "../app/words/capital.ts";
import { everywhere } from "../app/words/everywhere.ts";
import { pens as words } from "../app/words/pens.ts";
import { sexCount } from "../app/words/sexes.ts";
import { birdId, birdsOf } from "../book/birds.ts";
import type { Penned } from "../book/bodies.generated.ts";
import type { PenStay } from "../book/pen-stays.ts";
import { endPen, putTogether } from "../state/pens.ts";
import { standing } from "../state/standing.ts";
import { regionIn } from "./bird-view.ts";
import { familyName } from "./names.ts";
import { useDay } from "./own-day.ts";
import { DayField } from "./parts/day-field.tsx";
import { Press } from "./parts/press.tsx";
import { percent } from "./pen-draft.ts";
import { PenForm } from "./pen-form.tsx";
import { penName } from "./pen-name.ts";
import { PenVisit } from "./pen-visit.tsx";
import { dayTold, isDay } from "./told-day.ts";

export function PenCard({ pen, today }: { pen: PenStay; today: string }) {
  const totals = standing.value;
  const [open, setOpen] = useState<"change" | "visit" | "end" | null>(null);
  const close = () => setOpen(null);
  const name = penName(totals, pen);
  if (open === "change") {
    const { until: _, ...body } = pen.body;
    return (
      <PenForm
        title={words.form.change(familyName(totals, pen.family))}
        start={{ ...body, family: pen.family, since: "" }}
        family={pen.family}
        today={today}
        onCancel={close}
        onSave={(changed) => {
          void putTogether(changed);
          close();
        }}
      />
    );
  }
  const act = (what: "change" | "visit" | "end", text: string) => (
    <Press kind="plain" name={`${text}: ${name}`} onPress={() => setOpen(what)}>
      {text}
    </Press>
  );
  return (
    <section class="section" aria-label={name}>
      <div class="head">
        <h3>{name}</h3>
        <span class="quiet">{words.since(dayTold(pen.since))}</span>
      </div>
      <PenTold pen={pen} />
      {open === "visit" && <PenVisit pen={pen} today={today} onDone={close} />}
      {open === "end" && <PenEnding pen={pen} today={today} onDone={close} />}
      {open === null && (
        <div class="acts">
          {act("change", words.change)}
          {act("visit", words.gotIn)}
          {act("end", words.end)}
        </div>
      )}
    </section>
  );
}

/** Cocks and hens of a pen, with their parts where they are written. */
export function PenTold({ pen }: { pen: PenStay }) {
  const totals = standing.value;
  const birds = birdsOf(totals, null);
  const species = totals.families.get(pen.family)?.species ?? "chicken";
  const side = (of: Penned["sires"], sex: "male" | "female") => {
    const told = of.map(({ bird, share }) => {
      const id = birdId(totals, bird);
      const label = birds.get(id)?.label ?? "?";
      return (
        <li key={id}>
          <a href={`/bird/${id}`}>{share == null ? label : words.share(label, percent(share))}</a>
        </li>
      );
    });
    if (of.length === 0 && sex === "female") return null;
    return (
      <>
        <p class="quiet">{capital(sexCount(of.length, sex, species, regionIn(totals)))}</p>
        {told.length > 0 && <ul class="kin-chicks">{told}</ul>}
      </>
    );
  };
  return (
    <>
      {side(pen.body.sires, "male")}
      {side(pen.body.dams, "female")}
    </>
  );
}

function PenEnding({ pen, today, onDone }: { pen: PenStay; today: string; onDone: () => void }) {
  const [until, setUntil] = useDay(today);
  const isWrong = !isDay(until) || until < pen.since;
  const title = words.ending.title(penName(standing.value, pen));
  return (
    <section class="section" aria-label={title}>
      <DayField
        label={words.ending.last}
        value={until}
        onType={setUntil}
        fault={isWrong ? words.form.order : null}
      />
      <div class="acts">
        <Press kind="plain" onPress={onDone}>
          {everywhere.cancel}
        </Press>
        <Press
          kind="main"
          off={isWrong}
          onPress={() => {
            void endPen(pen, until);
            onDone();
          }}
        >
          {words.ending.save}
        </Press>
      </div>
    </section>
  );
}
