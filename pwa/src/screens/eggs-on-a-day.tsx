// What could be set on a day: how old today's eggs are then, and what the hens' pace would add.
import { eggStore as words } from "../app/words/eggs.ts";
import type { EggStore, FamilyStore } from "../book/egg-store.ts";
import { standing } from "../state/standing.ts";
import { shifted } from "../trade/backwards.ts";
import { MOST_DAYS, WORSE_AFTER_DAYS } from "../trade/storage.ts";
import { familyName } from "./names.ts";
import { useDay } from "./own-day.ts";
import { Why } from "./parts/why.tsx";
import { daysFrom, isDay } from "./told-day.ts";

/** What a family's store is on a later day: eggs of today by age then, and what is likely to be added. */
export function storeOn(store: FamilyStore, daysAhead: number) {
  const up = (days: number) =>
    store.parcels.filter((one) => one.ageDays + daysAhead <= days).reduce((sum, one) => sum + one.n, 0);
  return {
    n: store.n,
    fresh: up(WORSE_AFTER_DAYS),
    fit: up(MOST_DAYS),
    more: Math.round((store.kept7d / 7) * Math.max(0, daysAhead)),
  };
}

export function EggsOnADay({ store }: { store: EggStore }) {
  const [day, setDay] = useDay(shifted(store.on, 3) ?? store.on);
  const ahead = isDay(day) ? daysFrom(store.on, day) : 0;
  return (
    <section class="section">
      <h2>{words.settable}</h2>
      <div class="field">
        <label for="settable-on">{words.onDay}</label>
        <input
          id="settable-on"
          type="date"
          min={store.on}
          value={day}
          onInput={(event) => setDay(event.currentTarget.value)}
        />
      </div>
      <ul class="rows">
        {store.families
          .filter((one) => one.n > 0 || one.kept7d > 0)
          .map((one) => {
            const then = storeOn(one, ahead);
            const name = familyName(standing.value, one.family);
            return (
              <li key={one.family}>
                <b>{name}</b>
                <p>{words.onThatDay(then.n, then.fresh, WORSE_AFTER_DAYS)}</p>
                {then.more > 0 && (
                  <>
                    <p class="quiet">{words.pace(then.more)}</p>
                    <Why about={words.paceWhy(name)} formula={words.paceSum(one.kept7d, ahead)} />
                  </>
                )}
              </li>
            );
          })}
      </ul>
    </section>
  );
}
