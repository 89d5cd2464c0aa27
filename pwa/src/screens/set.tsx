// Eggs into a machine or under a hen: where, what, when, and batches of one family each. Works with no server near.
import { useState } from "preact/hooks";
import { capital } from "../app/words/capital.ts";
import { everywhere, listed } from "../app/words/everywhere.ts";
import { safety } from "../app/words/safety.ts";
import { batchMore, runsAlready, setEggs as words } from "../app/words/set.ts";
import { openPlans, planFor } from "../book/chores-plans.ts";
import { eggStore } from "../book/egg-store.ts";
import { isUnnamedMachine } from "../book/imported.ts";
import { ownWords } from "../book/own-words.ts";
import { shellsTogether } from "../book/shells.ts";
import type { Setting } from "../book/standing.ts";
import { openDesk } from "../state/desk.ts";
import { startSetting } from "../state/set-eggs.ts";
import { standing } from "../state/standing.ts";
import { goTo } from "../state/whereabouts.ts";
import { dayOf, incubationCalendar, localDate } from "../trade/calendar.ts";
import { speciesNamed } from "../trade/species.ts";
import { Choosing } from "./eggs-keeping.tsx";
import { speciesOptions } from "./family-form.tsx";
import { batchName } from "./names.ts";
import { useNow } from "./now.ts";
import { Page } from "./page.tsx";
import { type Moment, NOW } from "./parts/moment.ts";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { SelectField } from "./parts/select-field.tsx";
import { TextField } from "./parts/text-field.tsx";
import { BatchEdit } from "./set-batch.tsx";
import { Clashes } from "./set-clashes.tsx";
import { hatchTold, SetDates } from "./set-dates.tsx";
import {
  asOf,
  type Batch,
  batchesAgain,
  faultOf,
  firstBatches,
  lotOf,
  NEW,
  NEW_HEN,
  newBatch,
  sameSign,
} from "./set-draft.ts";
import { LockdownDay } from "./set-lockdown.tsx";
import { machinesOf, usualMachine } from "./set-machine.ts";
import { SetPlanned } from "./set-planned.tsx";
import { type SeenDraft, SetSeen } from "./set-seen.tsx";
import { dateWords } from "./told-time.ts";
import { When, whenOf } from "./when.tsx";

interface SetScreenProps {
  readonly place: string | null;
  readonly species: string | null;
  /** The plan that is taken up, where the keeper comes from one. */
  readonly plan: string | null;
}

export function SetScreen(asked: SetScreenProps) {
  const now_ms = useNow();
  const { places, families, settings, keeper } = standing.value;
  const own = ownWords(keeper.words).family;
  const machines = machinesOf(standing.value);
  const last = [...settings.values()].sort((a, b) => b.setAtMs - a.setAtMs)[0];
  const stores = new Map(eggStore(standing.value, now_ms).families.map((one) => [one.family, one]));
  const ofSpecies = (code: string) => [...families].filter(([, family]) => family.species === code);

  const plans = openPlans(standing.value);
  const taken = plans.find((one) => one.id === asked.plan);
  const [place, setPlace] = useState(() => asked.place ?? usualMachine(standing.value) ?? NEW);
  const [newPlace, setNewPlace] = useState("");
  const [species, setSpecies] = useState(
    () => asked.species ?? taken?.species ?? last?.species ?? [...families.values()][0]?.species ?? "chicken",
  );
  const [told, setTold] = useState<readonly Batch[]>(() => firstBatches(ofSpecies(species), stores));
  const [moment, setMoment] = useState<Moment>(NOW);
  const [lockdown, setLockdown] = useState<number | null>(null);
  const [seen, setSeen] = useState<SeenDraft>({ candledDay: null, locked: false });
  const [isPlanned, setPlanned] = useState(true);
  const [fault, setFault] = useState<string | null>(null);

  const known = speciesNamed(species);
  const families_ = ofSpecies(species);
  const at = whenOf(moment, new Date(now_ms));
  const setAtMs = (at ?? new Date(now_ms)).getTime();
  const setOn = localDate(setAtMs, keeper.zone);
  const batches = told.map((batch) => asOf(batch, setOn, stores.get(batch.family)));
  const total = batches.reduce((sum, batch) => sum + batch.n, 0);
  const role = place === NEW_HEN ? "hen" : place === NEW ? "incubator" : places.get(place)?.role;
  const underHen = role === "hen";
  const lockdownDay = underHen ? null : lockdown;
  const shells = shellsTogether(
    families,
    batches.map((batch) => batch.family),
  );
  const calendar = known ? incubationCalendar(known, setAtMs, lockdownDay, shells === "dark") : null;
  const day = at ? dayOf(setAtMs, now_ms) : 0;
  const candledDay = day >= 1 ? seen.candledDay : null;
  const plan = taken?.species === species ? taken : planFor(plans, species, place, setOn);
  const isNew = place === NEW || place === NEW_HEN;
  const nameOf = (batch: Batch) =>
    families.get(batch.family)?.name ?? (batch.name.trim() || words.batch(batches.indexOf(batch) + 1));
  const alike = sameSign(batches);

  const chooseSpecies = (code: string) => {
    setSpecies(code);
    setLockdown(null);
    setTold(firstBatches(ofSpecies(code), stores));
  };
  const again = (setting: Setting) => {
    setPlace(places.has(setting.place) && !isUnnamedMachine(setting.place) ? setting.place : place);
    setSpecies(setting.species);
    setLockdown(setting.lockdownDay);
    setTold(batchesAgain(standing.value, setting, stores));
  };
  const change = (i: number, batch: Batch) => setTold(told.map((old, j) => (j === i ? batch : old)));
  const addBatch = () => {
    const used = new Set(batches.map((batch) => batch.family));
    const next = families_.find(([id]) => !used.has(id)) ?? families_[0];
    setTold([...told, newBatch(next, stores.get(next?.[0] ?? ""))]);
  };
  const wrongWith = (): string | null => {
    if (isNew && !newPlace.trim()) return words.needPlace;
    const faults = batches.map((batch) => faultOf(batch, setOn));
    if (faults.includes("family")) return words.needFamily(own.one);
    if (faults.includes("count")) return words.needCount;
    if (faults.includes("who")) return batchMore.whoNeeded;
    if (faults.includes("swapped")) return batchMore.swapped;
    if (faults.includes("ahead")) return batchMore.ahead;
    if (faults.includes("found") && candledDay !== null) return runsAlready.tooMany;
    return at === undefined ? everywhere.when.ahead : null;
  };
  const start = () => {
    const wrong = wrongWith();
    setFault(wrong);
    if (wrong) return;
    const id = openDesk().ids.next();
    const lockDay = calendar && !underHen ? calendar.lockdown.day : null;
    void startSetting(
      {
        place: isNew ? { name: newPlace.trim(), role: underHen ? "hen" : "incubator" } : place,
        species,
        set_at: new Date(setAtMs),
        ...(plan && isPlanned ? { plan: plan.id } : {}),
        lots: batches.map((batch) => lotOf(batch, species)),
        ...(lockdownDay === null ? {} : { lockdown_day: lockdownDay }),
        ...(candledDay === null ? {} : { candledDay: Math.min(candledDay, day) }),
        ...(seen.locked && lockDay !== null && day >= lockDay ? { lockedDay: lockDay } : {}),
      },
      id,
    );
    goTo(`/setting/${id}`, "replace"); // at once: a second tap on a slow phone would set the eggs twice
  };
  return (
    <Page headline={words.total(total)} under={calendar ? words.hatchOn(hatchTold(calendar)) : null}>
      {last && <Again setting={last} onAgain={() => again(last)} />}
      <div class="pair">
        <SelectField
          label={words.place}
          value={place}
          options={[
            ...machines.map(([id, machine]) => ({ value: id, text: machine.name })),
            { value: NEW, text: words.newPlace },
            { value: NEW_HEN, text: words.newHen },
          ]}
          onChoose={setPlace}
        />
        <SelectField
          label={words.species}
          value={species}
          options={speciesOptions()}
          onChoose={chooseSpecies}
        />
      </div>
      {isNew && (
        <TextField
          label={underHen ? words.newHenName : words.newPlaceName}
          value={newPlace}
          onType={setNewPlace}
          capitals="words"
        />
      )}
      <section class="section" aria-label={capital(words.batches)}>
        {batches.map((batch, i) => (
          <BatchEdit
            key={i}
            at={i + 1}
            batch={batch}
            families={families_}
            stores={stores}
            setOn={setOn}
            onChange={(changed) => change(i, changed)}
            {...(batches.length > 1 ? { onRemove: () => setTold(told.filter((_, j) => j !== i)) } : {})}
          />
        ))}
        <div class="acts">
          <Press kind="plain" onPress={addBatch}>
            {words.addBatch}
          </Press>
        </div>
        <p class="quiet section-note">{words.signNote}</p>
        {alike && (
          <Notice tone="watch" live>
            <p>{words.sameSign(nameOf(alike[0]), nameOf(alike[1]), alike[0].sign.trim())}</p>
          </Notice>
        )}
      </section>
      <When moment={moment} now={new Date(now_ms)} onChange={setMoment} />
      {plan && <SetPlanned plan={plan} isIt={isPlanned} onChoose={setPlanned} />}
      {day >= 1 && (
        <SetSeen
          day={day}
          candleDays={calendar?.candle.map((stone) => stone.day) ?? []}
          lockdownDay={calendar && !underHen ? calendar.lockdown.day : null}
          draft={seen}
          batches={batches}
          nameOf={nameOf}
          onChange={setSeen}
          onBatch={change}
        />
      )}
      {known && calendar && (
        <SetDates species={known} calendar={calendar} underHen={underHen} shells={shells} />
      )}
      <Clashes newcomer={{ place, ...(role ? { role } : {}), species, setAtMs, n: total, lockdownDay }} />
      {!underHen && <LockdownDay usual={known?.lockdownDay ?? null} day={lockdown} onChange={setLockdown} />}
      {fault && (
        <Notice tone="loss" live>
          {fault}
        </Notice>
      )}
      <div class="acts">
        <a class="press plain" href="/rooms/plan">
          {words.plan}
        </a>
        <Press kind="main" onPress={start}>
          {words.start(total)}
        </Press>
      </div>
      <Choosing />
      {!underHen && (
        <Notice>
          <p class="quiet small">{safety.mains}</p>
        </Notice>
      )}
    </Page>
  );
}

function Again({ setting, onAgain }: { setting: Setting; onAgain: () => void }) {
  const { lots, keeper } = standing.value;
  const names = [...new Set(setting.lots.map((lot) => batchName(standing.value, lots.get(lot))))];
  return (
    <div class="section-note">
      <Press kind="plain" onPress={onAgain}>
        {words.again}
      </Press>
      <p class="quiet small">{words.againNote(dateWords(setting.setAtMs, keeper.zone), listed(names))}</p>
    </div>
  );
}
