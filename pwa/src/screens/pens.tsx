// The breeding pens: who stands with whom today, family by family, and what was written before.
import { useState } from "preact/hooks";
import { pens as words } from "../app/words/pens.ts";
import { birdsOf } from "../book/birds.ts";
import type { Penned } from "../book/bodies.generated.ts";
import { ownWords } from "../book/own-words.ts";
import { type PenStay, penStays, standingPens } from "../book/pen-stays.ts";
import { undo } from "../state/actions.ts";
import { correctPen, putTogether } from "../state/pens.ts";
import { standing } from "../state/standing.ts";
import { useNow } from "./now.ts";
import { Page } from "./page.tsx";
import { Press } from "./parts/press.tsx";
import { PenCard, PenTold } from "./pen-card.tsx";
import { PenForm } from "./pen-form.tsx";
import { penName } from "./pen-name.ts";
import { dateTold, dayTold } from "./told-day.ts";
import { dayKey } from "./told-time.ts";

interface PensScreenProps {
  /** A family whose pen is meant; birds to begin a new pen with, between commas, whose family alone is theirs. */
  readonly family: string | null;
  readonly birds: string | null;
}

export function PensScreen({ family, birds }: PensScreenProps) {
  const totals = standing.value;
  const today = dayKey(useNow(), totals.keeper.zone);
  const [isAdding, setAdding] = useState(birds !== null);
  const stays = penStays(totals);
  const now = standingPens(stays, today);
  const families = [...totals.families].sort(([, a], [, b]) => a.name.localeCompare(b.name));
  const own = ownWords(totals.keeper.words).family.one;
  const begun = family ?? (birds === null ? families[0]?.[0] : null) ?? "";
  return (
    <Page
      headline={now.length === 0 ? words.title.none : words.title.some(now.length)}
      under={families.length === 0 ? words.noFamily(own) : words.why}
    >
      {isAdding ? (
        <PenForm
          title={words.form.add}
          start={begunWith(birds)}
          family={begun}
          today={today}
          onCancel={() => setAdding(false)}
          onSave={(body) => {
            void putTogether(body);
            setAdding(false);
          }}
        />
      ) : (
        families.length > 0 && (
          <div class="acts">
            <Press kind="main" onPress={() => setAdding(true)}>
              {words.add}
            </Press>
          </div>
        )
      )}
      {families.map(([id, { name }]) => {
        const pens = now.filter((pen) => pen.family === id);
        return (
          <section class="section" key={id} aria-label={name}>
            <h2>{name}</h2>
            {pens.length === 0 && <p class="quiet">{words.none(own)}</p>}
            {pens.map((pen) => (
              <PenCard key={pen.entry} pen={pen} today={today} />
            ))}
            <Written stays={stays.filter((stay) => stay.family === id)} today={today} />
          </section>
        );
      })}
    </Page>
  );
}

/** Birds an address names, cocks and hens apart. */
function begunWith(birds: string | null): Partial<Penned> {
  const named = new Set((birds ?? "").split(","));
  const known = [...birdsOf(standing.value, null).values()].filter(({ id }) => named.has(id));
  const of = (sex: string) => known.filter(({ body }) => body.sex === sex).map(({ id }) => ({ bird: id }));
  return { sires: of("male"), dams: of("female") };
}

/** Everything of the family that was written, the latest first: to be put right or taken back. */
function Written({ stays, today }: { stays: readonly PenStay[]; today: string }) {
  const totals = standing.value;
  const [open, setOpen] = useState<string | null>(null);
  if (stays.length === 0) return null;
  return (
    <details>
      <summary>{words.written(stays.length)}</summary>
      <ul class="rows">
        {[...stays].reverse().map((pen) => {
          const days = pen.until
            ? words.days(dateTold(pen.since), dayTold(pen.until))
            : words.since(dateTold(pen.since));
          const name = `${pen.isVisit ? words.gotIn : penName(totals, pen)}, ${days}`;
          return (
            <li key={pen.entry}>
              {open === pen.entry ? (
                <PenForm
                  title={words.form.correct}
                  start={pen.body}
                  family={pen.family}
                  today={today}
                  isCorrection
                  onCancel={() => setOpen(null)}
                  onSave={(body) => {
                    void correctPen(pen.entry, body);
                    setOpen(null);
                  }}
                />
              ) : (
                <>
                  <b>{name}</b>
                  <PenTold pen={pen} />
                  <div class="acts">
                    {!pen.isVisit && (
                      <Press
                        kind="plain"
                        name={`${words.correct}: ${name}`}
                        onPress={() => setOpen(pen.entry)}
                      >
                        {words.correct}
                      </Press>
                    )}
                    <Press kind="plain" name={`${words.undo}: ${name}`} onPress={() => void undo(pen.entry)}>
                      {words.undo}
                    </Press>
                  </div>
                </>
              )}
            </li>
          );
        })}
      </ul>
    </details>
  );
}
