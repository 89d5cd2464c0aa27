// Eggs and meat that are not for eating yet, by the days that were typed from a label or by a vet.
import { listed } from "../app/words/everywhere.ts";
import { treating as words } from "../app/words/treating.ts";
import { birdId, birdsOf } from "../book/birds.ts";
import type { Treated } from "../book/bodies.generated.ts";
import { birdsIn } from "../book/pen-of.ts";
import type { Standing } from "../book/standing.ts";
import {
  eggsHeldBack,
  matters,
  type Treatment,
  treatmentsOf,
  treatmentsOfBird,
  treatmentsOfLot,
} from "../book/treatments.ts";
import { broods } from "../book/whereabouts.ts";
import { standing } from "../state/standing.ts";
import { batchName, placeName } from "./names.ts";
import { Notice } from "./parts/notice.tsx";
import { dayTold } from "./told-day.ts";
import { dayKey } from "./told-time.ts";

/** Whom a treatment is about: a bird's name, a batch's family, a place. */
export function treatedWho(
  totals: Standing,
  { bird, lot, place }: Readonly<Pick<Treated, "bird" | "lot" | "place">>,
): string {
  if (bird) return birdsOf(totals, null).get(birdId(totals, bird))?.label ?? "–";
  if (lot) return batchName(totals, totals.lots.get(lot));
  return placeName(totals, place ? (totals.rootOf.get(place) ?? place) : null);
}

interface HeldBackProps {
  readonly treatments: readonly Treatment[];
  readonly today: string;
  /** Both, unless one is left out here. */
  readonly eggs?: boolean;
  readonly meat?: boolean;
  /** Eggs that lie here since such a day are told too. */
  readonly laid?: boolean;
  /** Whose eggs or meat it is, where that is not whom the treatment was written of. */
  readonly whose?: (treatment: Treatment) => string;
}

/** What is held back of some treatments on a day; nothing where all days have passed. */
export function HeldBack({ treatments, today, ...parts }: HeldBackProps) {
  const totals = standing.value;
  const lines = treatments.flatMap(({ entry, body }) => {
    const who = parts.whose?.({ entry, body }) ?? treatedWho(totals, body);
    const told = (until: string | null | undefined, say: (day: string, who: string) => string) =>
      until && today <= until ? [`${say(dayTold(until), who)}, ${words.of(body.product)}.`] : [];
    const laid = body.no_eggs_until && today > body.no_eggs_until && parts.laid ? words.eggsLaid : null;
    return [
      ...(parts.eggs === false ? [] : told(body.no_eggs_until, words.eggsUntil)),
      ...(laid && body.no_eggs_until
        ? [`${laid(dayTold(body.no_eggs_until), who)}, ${words.of(body.product)}.`]
        : []),
      ...(parts.meat === false ? [] : told(body.no_meat_until, words.meatUntil)),
    ].map((text) => ({ entry, text }));
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
  return <HeldBack treatments={eggsHeldBack(standing.value, today)} today={today} meat={false} />;
}

/**
 * For a pen or a brooder: what holds back eggs or meat of those that stand in it, wherever it was given to them; what
 * was given to the place itself also where nobody is known to stand there.
 */
export function HeldBackAt({ place, now_ms }: { place: string; now_ms: number }) {
  const totals = standing.value;
  const today = dayKey(now_ms, totals.keeper.zone);
  const birds = birdsOf(totals, today);
  const inside = birdsIn(totals, place, today).flatMap((id) => birds.get(id) ?? []);
  const young = broods(totals).flatMap((one) => (one.place === place ? [one.lot, ...one.among] : []));
  const lots = [...new Set(young)].flatMap((lot) => totals.lots.get(lot) ?? []);
  const theirs = new Map<string, string[]>();
  const add = (name: string, own: readonly Treatment[]) => {
    for (const { entry } of own) theirs.set(entry, [...(theirs.get(entry) ?? []), name]);
  };
  for (const bird of inside) add(bird.label, treatmentsOfBird(totals, bird));
  for (const lot of lots) add(batchName(totals, lot), treatmentsOfLot(totals, lot));
  const isHere = ({ body }: Treatment) =>
    Boolean(body.place) && (totals.rootOf.get(body.place ?? "") ?? body.place) === place;
  const isEmpty = inside.length + lots.length === 0;
  const here = treatmentsOf(totals).filter(
    (one) => matters(one, today) && (theirs.has(one.entry) || (isEmpty && isHere(one))),
  );
  const whose = (one: Treatment) =>
    isHere(one) ? treatedWho(totals, one.body) : listed(theirs.get(one.entry) ?? []);
  return <HeldBack treatments={here} today={today} whose={whose} />;
}
