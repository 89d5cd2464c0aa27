// Eggs and meat that are not for eating yet, by the days that were typed from a label or by a vet.
import { treating as words } from "../app/words/treating.ts";
import { birdId, birdsOf } from "../book/birds.ts";
import type { Treated } from "../book/bodies.generated.ts";
import { birdsIn } from "../book/pen-of.ts";
import type { Standing } from "../book/standing.ts";
import { eggsHeldBack, matters, type Treatment, treatmentsOf } from "../book/treatments.ts";
import { broods } from "../book/whereabouts.ts";
import { standing } from "../state/standing.ts";
import { batchName, placeName } from "./names.ts";
import { Notice } from "./parts/notice.tsx";
import { dayTold } from "./told-day.ts";
import { dayKey } from "./told-time.ts";

/** Whom a treatment is about: a bird's name, a batch's family, a place. */
export function treatedWho(totals: Standing, { bird, lot, place }: Readonly<Treated>): string {
  if (bird) return birdsOf(totals, null).get(birdId(totals, bird))?.label ?? "–";
  if (lot) return batchName(totals, totals.lots.get(lot));
  return placeName(totals, place ? (totals.rootOf.get(place) ?? place) : null);
}

/** What is held back of some treatments on a day; nothing where all days have passed. */
export function HeldBack({ treatments, today }: { treatments: readonly Treatment[]; today: string }) {
  const totals = standing.value;
  const lines = treatments.flatMap(({ entry, body }) => {
    const who = treatedWho(totals, body);
    const told = (until: string | null | undefined, say: (day: string, who: string) => string) =>
      until && today <= until ? [`${say(dayTold(until), who)}, ${words.of(body.product)}.`] : [];
    return [...told(body.no_eggs_until, words.eggsUntil), ...told(body.no_meat_until, words.meatUntil)].map(
      (text) => ({ entry, text }),
    );
  });
  if (lines.length === 0) return null;
  return (
    <Notice tone="watch">
      {lines.map(({ entry, text }) => (
        <p key={`${entry} ${text}`}>
          <b>{text}</b>
        </p>
      ))}
      <p class="quiet">{words.typed}</p>
    </Notice>
  );
}

/** For the page of eggs: every treatment after which eggs are not for eating yet. */
export function EggsHeldBack({ today }: { today: string }) {
  const held = eggsHeldBack(standing.value, today).map(({ entry, body }) => ({
    entry,
    body: { ...body, no_meat_until: null },
  }));
  return <HeldBack treatments={held} today={today} />;
}

/** For a pen or a brooder: what holds back eggs or meat of those in it, given to all there or to one of them. */
export function HeldBackAt({ place, now_ms }: { place: string; now_ms: number }) {
  const totals = standing.value;
  const today = dayKey(now_ms, totals.keeper.zone);
  const inside = new Set(birdsIn(totals, place, today));
  const young = new Set(broods(totals).flatMap((one) => (one.place === place ? one.lot : [])));
  const here = treatmentsOf(totals).filter(
    ({ body }) =>
      (body.place && (totals.rootOf.get(body.place) ?? body.place) === place) ||
      (body.bird && inside.has(birdId(totals, body.bird))) ||
      (body.lot && young.has(body.lot)),
  );
  return <HeldBack treatments={here.filter((one) => matters(one, today))} today={today} />;
}
