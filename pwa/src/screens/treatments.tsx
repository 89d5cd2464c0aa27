// Treatments: what runs, until when eggs and meat are not for eating, and one more to write down.
import { useState } from "preact/hooks";
import { treating as words } from "../app/words/treating.ts";
import type { Treated } from "../book/bodies.generated.ts";
import { eggsHeldBack, matters, type Treatment, treatmentsOf } from "../book/treatments.ts";
import { undo } from "../state/actions.ts";
import { standing } from "../state/standing.ts";
import { changeTreatment, treat } from "../state/treating.ts";
import { HeldBack, treatedWho } from "./held-back.tsx";
import { useNow } from "./now.ts";
import { Page } from "./page.tsx";
import { Press } from "./parts/press.tsx";
import { Section } from "./section.tsx";
import { dayTold } from "./told-day.ts";
import { dayKey } from "./told-time.ts";
import { TreatForm } from "./treat-form.tsx";

export function TreatmentsScreen({ bird }: { bird: string | null }) {
  const totals = standing.value;
  const today = dayKey(useNow(), totals.keeper.zone);
  const [open, setOpen] = useState<string | null>(bird ? "new" : null);
  const all = treatmentsOf(totals);
  const running = all.filter((one) => matters(one, today));
  const eggs = eggsHeldBack(totals, today)
    .map(({ body }) => body.no_eggs_until ?? "")
    .sort()
    .at(-1);
  const headline = eggs
    ? words.title.eggs(dayTold(eggs))
    : running.length > 0
      ? words.title.some(running.length)
      : words.title.none;
  const close = () => setOpen(null);
  return (
    <Page headline={headline} under={running.length === 0 ? words.typed : null}>
      <HeldBack treatments={running} today={today} />
      {open === "new" ? (
        <TreatForm bird={bird} today={today} onCancel={close} onSave={(body) => saved(treat(body))} />
      ) : (
        <div class="acts">
          <Press kind="main" onPress={() => setOpen("new")}>
            {words.add}
          </Press>
        </div>
      )}
      <Section title={words.all}>
        {all.length === 0 && <p class="quiet">{words.nothing}</p>}
        <ul class="rows">
          {all.map((one) => (
            <li key={one.entry}>
              {open === one.entry ? (
                <TreatForm
                  start={one.body}
                  bird={null}
                  today={today}
                  onCancel={close}
                  onSave={(body) => saved(changeTreatment(one.entry, body))}
                />
              ) : (
                <TreatmentRow treatment={one} onChange={() => setOpen(one.entry)} />
              )}
            </li>
          ))}
        </ul>
      </Section>
    </Page>
  );

  function saved(writing: Promise<unknown>) {
    close();
    void writing;
  }
}

function TreatmentRow({
  treatment: { entry, body },
  onChange,
}: {
  treatment: Treatment;
  onChange: () => void;
}) {
  const who = treatedWho(standing.value, body);
  const line = words.line(body.product, who);
  return (
    <>
      <div class="head">
        <h3>{line}</h3>
        <span class="quiet">{givenWords(body)}</span>
      </div>
      <p class="quiet">
        {[
          body.reason,
          body.by && words.byWho(body.by),
          body.batch && words.batchNo(body.batch),
          body.no_eggs_until && words.eggsDay(dayTold(body.no_eggs_until)),
          body.no_meat_until && words.meatDay(dayTold(body.no_meat_until)),
        ]
          .filter(Boolean)
          .join(". ")}
      </p>
      <div class="acts">
        <Press kind="plain" name={`${words.change}: ${line}`} onPress={onChange}>
          {words.change}
        </Press>
        <Press kind="plain" name={`${words.undo}: ${line}`} onPress={() => void undo(entry)}>
          {words.undo}
        </Press>
      </div>
    </>
  );
}

const day = (moment: string | null | undefined) => (moment ? dayTold(moment.slice(0, 10)) : "");
const givenWords = ({ from, until }: Readonly<Treated>) => words.given(day(from), day(until));
