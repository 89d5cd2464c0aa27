// Orders of an authority: what is in force, what to mind, and the daily sheet counted from the book.
import { useState } from "preact/hooks";
import { safety } from "../app/words/safety.ts";
import { orders as words } from "../app/words/treating.ts";
import type { Order } from "../book/bodies.generated.ts";
import { undo } from "../state/actions.ts";
import { standing } from "../state/standing.ts";
import { endOrder, takeOrder } from "../state/treating.ts";
import { SHEET, SIGNS, STILL } from "../trade/movements.ts";
import { DaySheetTable } from "./day-sheet-table.tsx";
import { useNow } from "./now.ts";
import { type OneOrder, ordersOn } from "./order-notice.tsx";
import { useDay } from "./own-day.ts";
import { Page } from "./page.tsx";
import { Choice } from "./parts/choice.tsx";
import { DayField } from "./parts/day-field.tsx";
import { FormEnd } from "./parts/form-end.tsx";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { TextField } from "./parts/text-field.tsx";
import { Section } from "./section.tsx";
import { dayTold, isDay } from "./told-day.ts";
import { dayKey } from "./told-time.ts";

const KINDS = ["housing", "movement"] as const;

export function OrdersScreen() {
  const totals = standing.value;
  const today = dayKey(useNow(), totals.keeper.zone);
  const [adding, setAdding] = useState(false);
  const running = ordersOn(totals, today);
  const past = (totals.heads.order ?? []).filter(({ root }) => !running.some(({ id }) => id === root));
  const since = running.map(({ body }) => body.since.slice(0, 10)).sort()[0];
  return (
    <Page
      headline={running.length > 0 ? words.title.some(running.length) : words.title.none}
      under={`${words.rule} ${safety.rule}`}
    >
      {running.map((one) => (
        <Running key={one.id} order={one} today={today} />
      ))}
      <p class="section-note">
        {SIGNS.value} <b>{STILL.value}</b> {words.call}
      </p>
      {adding ? (
        <OrderForm today={today} onDone={() => setAdding(false)} />
      ) : (
        <div class="acts">
          <Press kind={running.length > 0 ? "plain" : "firm"} onPress={() => setAdding(true)}>
            {words.add}
          </Press>
        </div>
      )}
      <Section title={words.sheet}>
        <p class="quiet">{SHEET.value}</p>
        <p class="quiet">{words.sheetHint}</p>
        <DaySheetTable since={since ?? null} today={today} />
      </Section>
      {past.length > 0 && (
        <Section title={words.all}>
          <ul class="rows">
            {past.map(({ root, body }) => (
              <li key={root}>
                {body.text}{" "}
                <span class="quiet">
                  {words.past(
                    dayTold(body.since.slice(0, 10)),
                    body.until ? dayTold(body.until.slice(0, 10)) : "–",
                  )}
                </span>
              </li>
            ))}
          </ul>
        </Section>
      )}
    </Page>
  );
}

function Running({ order: { id, body }, today }: { order: OneOrder; today: string }) {
  return (
    <Notice tone="watch">
      <p>
        <b>{words.running(body.text, dayTold(body.since.slice(0, 10)))}</b> {words.caution[body.kind]}
      </p>
      <div class="acts">
        <Press
          kind="plain"
          name={`${words.lift}: ${body.text}`}
          onPress={() => void endOrder(id, dayBefore(today, body))}
        >
          {words.lift}
        </Press>
        <Press kind="plain" name={`${words.undo}: ${body.text}`} onPress={() => void undo(id)}>
          {words.undo}
        </Press>
      </div>
    </Notice>
  );
}

/** Lifted today: its last day was yesterday, or its first day where it began today. */
function dayBefore(today: string, { since }: Readonly<Order>): string {
  const yesterday = new Date(Date.parse(`${today}T12:00:00Z`) - 86_400_000).toISOString().slice(0, 10);
  const first = since.slice(0, 10);
  if (yesterday >= first) return yesterday;
  return first;
}

function OrderForm({ today, onDone }: { today: string; onDone: () => void }) {
  const [text, setText] = useState("");
  const [kind, setKind] = useState<Order["kind"]>("housing");
  const [since, setSince] = useDay(today);
  const [until, setUntil] = useState("");
  const [asked, setAsked] = useState(false);
  const save = () => {
    setAsked(true);
    if (!text.trim() || !isDay(since)) return;
    void takeOrder({ text: text.trim(), kind, since, ...(isDay(until) ? { until } : {}) });
    onDone();
  };
  return (
    <section class="section" aria-label={words.add}>
      <TextField
        label={words.text}
        value={text}
        most={300}
        onType={setText}
        hint={words.textHint}
        fault={asked && !text.trim() ? words.needText : null}
      />
      <Choice
        label={words.kind}
        value={kind}
        options={KINDS.map((value) => ({ value, text: words.kinds[value] }))}
        onChoose={setKind}
      />
      <div class="pair">
        <DayField label={words.since} value={since} onType={setSince} />
        <DayField label={words.until} value={until} min={since} onType={setUntil} />
      </div>
      <FormEnd save={words.save} onSave={save} onCancel={onDone} />
    </section>
  );
}
