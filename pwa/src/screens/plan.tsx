// Planning: from a wished day of hatching back to the day of setting, species by species, or forwards.

import { useState } from "preact/hooks";
import { plan as words } from "../app/words/plan.ts";
import { young } from "../app/words/species.ts";
import { openPlans } from "../book/chores-plans.ts";
import { type EggStore, eggStore } from "../book/egg-store.ts";
import { record } from "../state/actions.ts";
import { standing } from "../state/standing.ts";
import { hatchDaysFor, setDayFor, shifted } from "../trade/backwards.ts";
import { incubationCalendar, localDate } from "../trade/calendar.ts";
import { inASentence, SPECIES, type Species, speciesNamed } from "../trade/species.ts";
import { MOST_DAYS } from "../trade/storage.ts";
import { storeOn } from "./eggs-on-a-day.tsx";
import { useNow } from "./now.ts";
import { useDay } from "./own-day.ts";
import { Page } from "./page.tsx";
import { Choice } from "./parts/choice.tsx";
import { DayField } from "./parts/day-field.tsx";
import { instantOf } from "./parts/moment.ts";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { SelectField } from "./parts/select-field.tsx";
import { PlansKept, planTold, spanTold } from "./plan-kept.tsx";
import { Clashes } from "./set-clashes.tsx";
import { SetDates } from "./set-dates.tsx";
import { runningSettings } from "./setting-view.ts";
import { daysFrom, isDay, weekdayTold } from "./told-day.ts";

const WAYS = ["hatch", "set"] as const;
type Way = (typeof WAYS)[number];
const MACHINES = ["incubator", "hen"];

export function PlanScreen() {
  const now_ms = useNow();
  const { families, places, keeper } = standing.value;
  const today = localDate(now_ms, keeper.zone);
  const kept = [...new Set([...families.values()].map((family) => family.species))].flatMap(
    (code) => speciesNamed(code) ?? [],
  );
  const species = kept.length > 0 ? kept : [...SPECIES.values()].slice(0, 1);
  const soonest = Math.max(...species.map((one) => one.periodDays[0]));
  const [way, setWay] = useState<Way>("hatch");
  const [hatchDay, setHatchDay] = useDay(shifted(today, soonest + 7) ?? today);
  const [setDay, setSetDay] = useDay(shifted(today, 3) ?? today);
  const [place, setPlace] = useState("");
  const machines = [...places].filter(([, one]) => MACHINES.includes(one.role));
  const store = eggStore(standing.value, now_ms);
  const day = way === "hatch" ? hatchDay : setDay;
  const rows = isDay(day) ? species.map((one) => rowOf(one, way, day)) : [];
  const [only] = rows;
  const headline =
    rows.length === 1 && only
      ? words.title.one(inASentence(only.species.name), weekdayTold(only.setOn))
      : rows.length > 1 && way === "hatch"
        ? words.title.together(weekdayTold(day))
        : words.title.none;
  return (
    <Page headline={headline}>
      <PlansKept />
      <Choice
        label={words.way}
        value={way}
        options={WAYS.map((value) => ({ value, text: words.ways[value] }))}
        onChoose={setWay}
      />
      <div class="pair">
        {way === "hatch" ? (
          <DayField label={words.hatchDay} value={hatchDay} min={today} onType={setHatchDay} />
        ) : (
          <DayField label={words.setDay} value={setDay} min={today} onType={setSetDay} />
        )}
        <SelectField
          label={words.place}
          value={place}
          options={[
            { value: "", text: words.anyPlace },
            ...machines.map(([id, machine]) => ({ value: id, text: machine.name })),
          ]}
          onChoose={setPlace}
        />
      </div>
      {way === "hatch" && <Like now_ms={now_ms} onChoose={setHatchDay} />}
      {rows.length === 0 && (
        <Notice live>
          <p>{words.noDay}</p>
        </Notice>
      )}
      {rows.map((row) => (
        <PlanRow key={row.species.code} row={row} today={today} place={place} store={store} />
      ))}
      <div class="acts">
        <a class="press plain" href="/plan">
          {words.howMany}
        </a>
      </div>
    </Page>
  );
}

interface Row {
  readonly species: Species;
  readonly setOn: string;
  readonly hatch: readonly [from: string, to: string];
}

function rowOf(species: Species, way: Way, day: string): Row {
  const setOn = (way === "hatch" ? setDayFor(species, day) : day) ?? day;
  return { species, setOn, hatch: hatchDaysFor(species, setOn) ?? [day, day] };
}

interface PlanRowProps {
  readonly row: Row;
  readonly today: string;
  readonly place: string;
  readonly store: EggStore;
}

/** One species: when to set it, what will lie in store by then, what it would meet in the machine. */
function PlanRow({ row, today, place, store }: PlanRowProps) {
  const [kept, setKept] = useState<string | null>(null);
  const { species, setOn, hatch } = row;
  const away = daysFrom(today, setOn);
  const { families, places, keeper } = standing.value;
  const own = store.families.filter((one) => families.get(one.family)?.species === species.code);
  const then = own.map((one) => storeOn(one, away));
  const n = then.reduce((sum, one) => sum + one.n, 0);
  const more = then.reduce((sum, one) => sum + one.more, 0);
  const old = then.reduce((sum, one) => sum + one.n - one.fit, 0);
  const setAtMs = instantOf(setOn, "12:00", keeper.zone);
  const underHen = places.get(place)?.role === "hen";
  const earliest = hatchDaysFor(species, today) ?? hatch;
  const text = planTold({ species: species.code, place, setOn });
  const isKept = openPlans(standing.value).some((one) => planTold(one) === text);
  const write = () => {
    const where = place ? { place } : {};
    void record("note", { text, plan: { species: species.code, set_on: setOn, ...where } });
    setKept(text);
  };
  return (
    <section class="section" aria-label={species.name}>
      <h2>{species.name}</h2>
      {away < 0 ? (
        <p>{words.late(-away, spanTold(earliest))}</p>
      ) : (
        <>
          <p>
            <b>{words.setOn(weekdayTold(setOn), words.away(away))}</b>
          </p>
          <p class="quiet">
            {n === 0 && more === 0 ? words.noStore : more > 0 ? words.by(n, more) : words.store(n)}
            {old > 0 && `; ${words.old(old, MOST_DAYS)}`}
          </p>
          <SetDates
            species={species}
            calendar={incubationCalendar(species, setAtMs)}
            underHen={underHen}
            shells="plain"
          />
          {place && (
            <Clashes newcomer={{ place, species: species.code, setAtMs, n: n + more, lockdownDay: null }} />
          )}
          <div class="acts">
            {away === 0 && (
              <a
                class="press main"
                href={`/rooms/set?species=${species.code}${place ? `&place=${place}` : ""}`}
              >
                {words.now}
              </a>
            )}
            <Press kind="plain" off={isKept} onPress={write}>
              {words.keep}
            </Press>
          </div>
          {isKept && kept === text && (
            <Notice live>
              <p>{words.kept}</p>
            </Notice>
          )}
        </>
      )}
    </section>
  );
}

/** The hatch days of what runs already, to hatch with them. */
function Like({ now_ms, onChoose }: { now_ms: number; onChoose: (day: string) => void }) {
  const { keeper } = standing.value;
  const today = localDate(now_ms, keeper.zone);
  const running = runningSettings(standing.value, now_ms).flatMap(({ calendar, inShell, setting }) => {
    const day = calendar ? localDate(calendar.hatchFrom.atMs, keeper.zone) : "";
    return day > today ? [{ day, inShell, setting }] : [];
  });
  if (running.length === 0) return null;
  return (
    <section class="section">
      <h2>{words.likeTitle}</h2>
      <div class="acts">
        {running.map(({ day, inShell, setting }) => (
          <Press key={setting.id} kind="plain" onPress={() => onChoose(day)}>
            {words.like(young(inShell, setting.species), weekdayTold(day))}
          </Press>
        ))}
      </div>
    </section>
  );
}
