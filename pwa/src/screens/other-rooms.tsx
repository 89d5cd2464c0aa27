// Brooders, and pens: what is in them, in a line. Chicks stand where they were moved to last.
import { elsewhere as words } from "../app/words/machine.ts";
import { young } from "../app/words/species.ts";
import type { Place } from "../book/bodies.generated.ts";
import type { Lot, Standing } from "../book/standing.ts";
import { inStage } from "../book/standing.ts";
import { standing } from "../state/standing.ts";
import { familyName } from "./names.ts";
import { daysBetween } from "./told-time.ts";

const CHICKS = ["brooding", "growing"] as const;

/** A batch's chicks in a brooder. age_days: since the first of them hatched, null where that is not known. */
export interface Brood {
  readonly lot: Lot;
  readonly n: number;
  readonly species: string;
  readonly hatchedMs: number | null;
}

/** The chicks of every batch by the place they were moved to last; "" where no move named one. */
export function broodsByPlace(totals: Standing): Map<string, Brood[]> {
  const places = new Map<string, Brood[]>();
  for (const lot of totals.lots.values()) {
    const n = CHICKS.reduce((sum, stage) => sum + Math.max(0, inStage(lot, stage)), 0);
    if (n === 0) continue;
    const named = lot.moves.filter(
      (move) => move.place !== null && (CHICKS as readonly string[]).includes(move.target),
    );
    const place = named.at(-1)?.place ?? "";
    const home = totals.rootOf.get(place) ?? place;
    const species =
      totals.settings.get(lot.setting ?? "")?.species ?? totals.families.get(lot.family ?? "")?.species ?? "";
    const hatchedMs = lot.moves.find((move) => move.target === "hatched")?.atMs ?? null;
    places.set(home, [...(places.get(home) ?? []), { lot, n, species, hatchedMs }]);
  }
  return places;
}

export function OtherRooms({ now_ms }: { now_ms: number }) {
  const totals = standing.value;
  const broods = broodsByPlace(totals);
  const shown = [...totals.places].filter(
    ([id, place]) =>
      place.role === "brooder" || place.role === "pen" || (place.role === "hen" && broods.has(id)),
  );
  const homeless = broods.get("") ?? [];
  return (
    <>
      {shown.map(([id, place]) => (
        <section class="room" key={id} aria-label={place.name}>
          <h2>{place.name}</h2>
          {place.role === "pen" ? (
            <Penned id={id} />
          ) : (
            <Broods broods={broods.get(id) ?? []} now_ms={now_ms} place={place} />
          )}
        </section>
      ))}
      {homeless.length > 0 && (
        <section class="room" aria-label={words.noBrooder}>
          <h2>{words.noBrooder}</h2>
          <Broods broods={homeless} now_ms={now_ms} />
        </section>
      )}
    </>
  );
}

function Broods({ broods, now_ms, place }: { broods: readonly Brood[]; now_ms: number; place?: Place }) {
  const totals = standing.value;
  if (broods.length === 0) return place ? <p class="quiet">{words.brooder.empty}</p> : null;
  return (
    <ul class="lines">
      {broods.map(({ lot, n, species, hatchedMs }) => {
        const days = hatchedMs === null ? null : daysBetween(hatchedMs, now_ms, totals.keeper.zone);
        const age = days === null ? "" : days === 0 ? words.hatchedToday : words.days(days);
        return (
          <li key={lot.id}>
            <span>{familyName(totals, lot.family)}</span>
            <span>{age ? words.chicks(young(n, species), age) : young(n, species)}</span>
          </li>
        );
      })}
    </ul>
  );
}

function Penned({ id }: { id: string }) {
  const totals = standing.value;
  const now = (totals.heads.penned ?? []).filter(
    ({ body }) => !body.until && body.place && (totals.rootOf.get(body.place) ?? body.place) === id,
  );
  if (now.length === 0) return <p class="quiet">{words.pen.empty}</p>;
  return (
    <ul class="lines">
      {now.map(({ root, body }) => (
        <li key={root}>
          <span>{words.pen.birds(familyName(totals, body.family), body.sires.length, body.dams.length)}</span>
        </li>
      ))}
    </ul>
  );
}
