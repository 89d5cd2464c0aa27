// Brooders, pens and hens with chicks: what is in them, in a line.
import { elsewhere as words } from "../app/words/machine.ts";
import { standing } from "../state/standing.ts";
import { nests } from "./brood-view.ts";
import { NestCard } from "./broods.tsx";
import { familyName } from "./names.ts";

const MACHINES = ["incubator", "hatcher"];

export function OtherRooms({ now_ms }: { now_ms: number }) {
  const totals = standing.value;
  const shown = nests(totals, now_ms).filter(({ place }) => !place || !MACHINES.includes(place.role));
  const held = new Set(shown.map(({ id }) => id));
  const pens = [...totals.places].filter(([id, place]) => place.role === "pen" && !held.has(id));
  return (
    <>
      {shown.map((nest) => (
        <NestCard key={nest.id} nest={nest} totals={totals}>
          {nest.place?.role === "pen" && <Penned id={nest.id} />}
        </NestCard>
      ))}
      {pens.map(([id, place]) => (
        <section class="room" key={id} aria-label={place.name}>
          <h2>{place.name}</h2>
          <Penned id={id} isAlone />
        </section>
      ))}
    </>
  );
}

function Penned({ id, isAlone = false }: { id: string; isAlone?: boolean }) {
  const totals = standing.value;
  const now = (totals.heads.penned ?? []).filter(
    ({ body }) => !body.until && body.place && (totals.rootOf.get(body.place) ?? body.place) === id,
  );
  if (now.length === 0) return isAlone ? <p class="quiet">{words.pen.empty}</p> : null;
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
