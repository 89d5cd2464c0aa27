// Brooders, pens and hens with chicks: what is in them, in a line.
import { elsewhere as words } from "../app/words/machine.ts";
import { penStays, standingPens } from "../book/pen-stays.ts";
import { standing } from "../state/standing.ts";
import { nests } from "./brood-view.ts";
import { NestCard } from "./broods.tsx";
import { HeldBackAt } from "./held-back.tsx";
import { familyName } from "./names.ts";
import { dayKey } from "./told-time.ts";

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
          {nest.place?.role === "pen" && <Penned id={nest.id} now_ms={now_ms} />}
        </NestCard>
      ))}
      {pens.map(([id, place]) => (
        <section class="room" key={id} aria-label={place.name}>
          <h2>{place.name}</h2>
          <Penned id={id} now_ms={now_ms} isAlone />
        </section>
      ))}
    </>
  );
}

interface PennedProps {
  readonly id: string;
  readonly now_ms: number;
  readonly isAlone?: boolean;
}

function Penned({ id, now_ms, isAlone = false }: PennedProps) {
  const totals = standing.value;
  const today = dayKey(now_ms, totals.keeper.zone);
  const now = standingPens(penStays(totals), today).filter((pen) => pen.place === id);
  if (now.length === 0) return isAlone ? <p class="quiet">{words.pen.empty}</p> : null;
  return (
    <>
      <ul class="lines">
        {now.map(({ entry, family, body }) => (
          <li key={entry}>
            <span>{words.pen.birds(familyName(totals, family), body.sires.length, body.dams.length)}</span>
          </li>
        ))}
      </ul>
      <HeldBackAt place={id} now_ms={now_ms} />
    </>
  );
}
