// Eggs and meat that are not for eating yet, by the days that were typed from a label or by a vet.
import { treating as words } from "../app/words/treating.ts";
import { birdId, birdsOf } from "../book/birds.ts";
import type { Treated } from "../book/bodies.generated.ts";
import type { Standing } from "../book/standing.ts";
import { eggsHeldBack, type Treatment } from "../book/treatments.ts";
import { standing } from "../state/standing.ts";
import { batchName, placeName } from "./names.ts";
import { Notice } from "./parts/notice.tsx";
import { dayTold } from "./told-day.ts";

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
