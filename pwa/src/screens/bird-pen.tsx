// In which pen a bird stands today, and the way to change it.
import { pens as words } from "../app/words/pens.ts";
import type { OneBird } from "../book/birds.ts";
import { birdsOfPen, penStays, standingPens } from "../book/pen-stays.ts";
import { standing } from "../state/standing.ts";
import { penName } from "./pen-name.ts";
import { Section } from "./section.tsx";
import { dateTold } from "./told-day.ts";

export function BirdPen({ bird, today }: { bird: OneBird; today: string }) {
  const totals = standing.value;
  const pens = standingPens(penStays(totals), today).filter((pen) => birdsOfPen(totals, pen).has(bird.id));
  const family = pens[0]?.family ?? bird.body.family;
  const asked = new URLSearchParams({
    ...(family ? { family: totals.rootOf.get(family) ?? family } : {}),
    ...(pens.length === 0 ? { birds: bird.id } : {}),
  });
  return (
    <Section title={words.of.title}>
      {pens.length === 0 && <p class="quiet">{words.of.none}</p>}
      {pens.map((pen) => (
        <p key={pen.entry}>{`${penName(totals, pen)}, ${words.since(dateTold(pen.since))}`}</p>
      ))}
      <div class="acts">
        <a class="press plain" href={`/families/pens?${asked}`}>
          {pens.length === 0 ? words.of.put : words.of.change}
        </a>
      </div>
    </Section>
  );
}
