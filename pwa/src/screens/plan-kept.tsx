// Plans in the book that no setting took up yet: what, where, when; each can be let go.
import { plan as words } from "../app/words/plan.ts";
import { openPlans, type Planned } from "../book/chores-plans.ts";
import { undo } from "../state/actions.ts";
import { standing } from "../state/standing.ts";
import { hatchDaysFor } from "../trade/backwards.ts";
import { speciesNamed } from "../trade/species.ts";
import { placeName } from "./names.ts";
import { Press } from "./parts/press.tsx";
import { Section } from "./section.tsx";
import { weekdayTold } from "./told-day.ts";

/** "Sat 28 Mar to Mon 30 Mar", or the one day. */
export const spanTold = ([from, to]: readonly [string, string]) =>
  from === to ? weekdayTold(from) : words.to(weekdayTold(from), weekdayTold(to));

/** "Set duck eggs in Loft box on Sat 28 Feb, chicks Sat 28 Mar to Mon 30 Mar." */
export function planTold({ species, place, setOn }: Omit<Planned, "id">): string {
  const known = speciesNamed(species);
  const hatch = known && hatchDaysFor(known, setOn);
  return words.told(
    words.speciesEggs((known?.name ?? species).toLowerCase()),
    place ? placeName(standing.value, place) : "",
    weekdayTold(setOn),
    hatch ? spanTold(hatch) : "",
  );
}

export function PlansKept() {
  const plans = openPlans(standing.value).sort((a, b) => (a.setOn < b.setOn ? -1 : 1));
  if (plans.length === 0) return null;
  return (
    <Section title={words.keptTitle}>
      <ul class="rows">
        {plans.map((one) => (
          <li key={one.id}>
            <p>{planTold(one)}</p>
            <div class="acts">
              <Press kind="plain" name={words.letGoOf(planTold(one))} onPress={() => void undo(one.id)}>
                {words.letGo}
              </Press>
            </div>
          </li>
        ))}
      </ul>
      <p class="quiet small">{words.keptNote}</p>
    </Section>
  );
}
