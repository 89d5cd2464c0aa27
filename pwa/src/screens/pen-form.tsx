// Who stands in a pen: the family, where, since when, cocks and hens, and their parts in the eggs where they differ.
import { useState } from "preact/hooks";
import { capital } from "../app/words/capital.ts";
import { listed } from "../app/words/everywhere.ts";
import { pens as words } from "../app/words/pens.ts";
import { sexesWord } from "../app/words/sexes.ts";
import { birdId, birdsOf, type OneBird } from "../book/birds.ts";
import type { Penned } from "../book/bodies.generated.ts";
import { ownWords } from "../book/own-words.ts";
import { birdsOfPen, isSameHouse, type PenStay, penStays, standingPens } from "../book/pen-stays.ts";
import { pensLeft } from "../state/pens.ts";
import { standing } from "../state/standing.ts";
import { apartUntil, regionIn } from "./bird-view.ts";
import { Choice } from "./parts/choice.tsx";
import { DayField } from "./parts/day-field.tsx";
import { FormEnd } from "./parts/form-end.tsx";
import { Notice } from "./parts/notice.tsx";
import { SelectField } from "./parts/select-field.tsx";
import { PenBirds } from "./pen-birds.tsx";
import { draftOf, isFaulty, type PenDraft, penBody, penFaults, SIDES } from "./pen-draft.ts";
import { penName } from "./pen-name.ts";
import { PenShares } from "./pen-shares.tsx";
import { dayTold, isDay } from "./told-day.ts";

interface PenFormProps {
  readonly title: string;
  readonly start: Partial<Penned>;
  /** Of which family, where the start does not say. */
  readonly family: string;
  readonly today: string;
  /** An entry that was written is put right: its last day can be changed, and no other pen is. */
  readonly isCorrection?: boolean;
  readonly onSave: (body: Penned) => void;
  readonly onCancel: () => void;
}

export function PenForm({ title, start, family, today, isCorrection, onSave, onCancel }: PenFormProps) {
  const totals = standing.value;
  const [typed, setTyped] = useState<PenDraft>(() => draftOf(start, family));
  const draft = { ...typed, since: typed.since || today };
  const [asked, setAsked] = useState(false);
  const change = (changed: Partial<PenDraft>) => setTyped({ ...typed, ...changed });
  const faults = penFaults(draft);
  const birds = birdsOf(totals, null);
  const named = new Set([...draft.sires, ...draft.dams]);
  const mayStand = [...birds.values()].filter(({ id, where }) => where === "here" || named.has(id));
  const own = ownWords(totals.keeper.words).family.one;
  const species = totals.families.get(draft.family)?.species ?? "chicken";
  const sex = { sires: "male", dams: "female" } as const;
  const sexed = (of: "male" | "female") => capital(sexesWord(of, species, regionIn(totals)));
  const labelOf = (bird: string) => birds.get(birdId(totals, bird))?.label ?? "?";
  const unsexed = mayStand.filter(({ body }) => body.sex === "unknown").length;
  const save = () => {
    setAsked(true);
    if (!isFaulty(faults)) onSave(penBody(draft));
  };
  return (
    <section class="section" aria-label={title}>
      <h2>{title}</h2>
      <div class="pair">
        <SelectField
          label={capital(own)}
          value={draft.family}
          options={[
            ...(draft.family === "" ? [{ value: "", text: words.form.whose(own) }] : []),
            ...[...totals.families].map(([value, { name }]) => ({ value, text: name })),
          ]}
          onChoose={(chosen) => change({ family: chosen })}
        />
        <SelectField
          label={words.form.place}
          value={draft.place}
          options={[
            { value: "", text: words.form.noPlace },
            ...[...totals.places]
              .filter(([id, { role }]) => role === "pen" || role === "apart" || id === draft.place)
              .map(([value, { name }]) => ({ value, text: name })),
          ]}
          onChoose={(place) => change({ place })}
        />
        <DayField label={words.form.sinceDay} value={draft.since} onType={(since) => change({ since })} />
        {isCorrection && (
          <DayField label={words.form.untilDay} value={draft.until} onType={(until) => change({ until })} />
        )}
      </div>
      {SIDES.map((side) => (
        <PenBirds
          key={side}
          label={sexed(sex[side])}
          others={(n) => words.form.others(n, own)}
          birds={mayStand.filter(({ body }) => body.sex === sex[side])}
          family={draft.family}
          chosen={draft[side]}
          onChoose={(chosen) => change({ [side]: chosen })}
        />
      ))}
      {unsexed > 0 && <p class="quiet section-note">{words.form.unsexed(unsexed)}</p>}
      {SIDES.some((side) => draft[side].length > 1) && (
        <Choice
          label={words.form.shares}
          value={draft.alike}
          options={(["yes", "no"] as const).map((value) => ({ value, text: words.form.alike[value] }))}
          onChoose={(alike) => change({ alike })}
        />
      )}
      {draft.alike === "no" && (
        <PenShares
          draft={draft}
          faults={asked ? faults : null}
          sideWords={{ sires: sexed("male"), dams: sexed("female") }}
          labelOf={labelOf}
          onType={(bird, text) => change({ shares: { ...draft.shares, [bird]: text } })}
        />
      )}
      {!isCorrection && isDay(draft.since) && <PenCautions draft={draft} labelOf={labelOf} />}
      {[...mayStand].map((bird) => (
        <Apart key={bird.id} bird={bird} since={draft.since} isIn={named.has(bird.id)} />
      ))}
      {asked && <PenFault faults={faults} own={own} />}
      <FormEnd save={words.form.save} onSave={save} onCancel={onCancel} />
    </section>
  );
}

function PenFault({ faults, own }: { faults: ReturnType<typeof penFaults>; own: string }) {
  const told = [
    faults.noFamily && words.form.needFamily(own),
    faults.nobody && words.form.needBird,
    faults.noHens && words.form.needHens,
    faults.noDay && words.form.needDay,
    faults.order && words.form.order,
  ].filter(Boolean);
  return (
    <>
      {told.map((fault) => (
        <p class="fault" role="alert" key={String(fault)}>
          {fault}
        </p>
      ))}
    </>
  );
}

function Apart({ bird, since, isIn }: { bird: OneBird; since: string; isIn: boolean }) {
  const apart = isIn ? apartUntil(standing.value, bird.id, since) : null;
  return apart ? <Notice tone="watch">{words.form.apart(bird.label, dayTold(apart))}</Notice> : null;
}

/** What else this pen ends: the one that stood in the same house, and the places its birds leave. */
function PenCautions({ draft, labelOf }: { draft: PenDraft; labelOf: (bird: string) => string }) {
  const totals = standing.value;
  const house = { family: draft.family, place: draft.place || null };
  const before = standingPens(penStays(totals), draft.since).filter(
    (pen) => isSameHouse(pen, house) && pen.since < draft.since,
  );
  const body = {
    ...house,
    since: draft.since,
    sires: draft.sires.map((bird) => ({ bird })),
    dams: draft.dams.map((bird) => ({ bird })),
  };
  const leaving = pensLeft(body);
  if (before.length + leaving.length === 0) return null;
  const shared = (pen: PenStay) => [...birdsOfPen(totals, pen)].filter((id) => isNamed(id)).map(labelOf);
  const isNamed = (id: string) => [...draft.sires, ...draft.dams].some((one) => birdId(totals, one) === id);
  return (
    <Notice live>
      {before.map((pen) => (
        <p key={pen.entry}>{words.form.ends(penName(totals, pen), dayTold(pen.since))}</p>
      ))}
      {leaving.map((pen) => (
        <p key={pen.entry}>{words.form.leaves(listed(shared(pen)), penName(totals, pen))}</p>
      ))}
    </Notice>
  );
}
