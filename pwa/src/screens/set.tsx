// Eggs into a machine: where, what, when, and batches of one family each. Works with no server near.
import { useState } from "preact/hooks";
import { everywhere } from "../app/words/everywhere.ts";
import { setEggs as words } from "../app/words/rooms.ts";
import { safety } from "../app/words/safety.ts";
import type { Family } from "../book/bodies.generated.ts";
import { startSetting } from "../state/actions.ts";
import { openDesk } from "../state/desk.ts";
import { standing } from "../state/standing.ts";
import { goTo } from "../state/whereabouts.ts";
import { incubationCalendar } from "../trade/calendar.ts";
import { speciesNamed } from "../trade/species.ts";
import { speciesOptions } from "./family-form.tsx";
import { useNow } from "./now.ts";
import { Page } from "./page.tsx";
import { type Moment, momentToDate, NOW } from "./parts/moment.ts";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { SelectField } from "./parts/select-field.tsx";
import { Stepper } from "./parts/stepper.tsx";
import { TextField } from "./parts/text-field.tsx";
import { WhenChooser } from "./parts/when-chooser.tsx";
import { type Batch, BatchEdit, NEW, newBatch } from "./set-batch.tsx";
import { dayWords } from "./told-time.ts";

const MACHINES = ["incubator", "hatcher", "hen"];

export function SetScreen({ place: asked }: { place: string | null }) {
  const now_ms = useNow();
  const { places, families, settings } = standing.value;
  const machines = [...places].filter(([, place]) => MACHINES.includes(place.role));
  const last = [...settings.values()].sort((a, b) => b.setAtMs - a.setAtMs)[0];
  const [place, setPlace] = useState(
    () =>
      asked ?? (machines.length === 1 ? (machines[0]?.[0] ?? NEW) : (last?.place ?? machines[0]?.[0] ?? NEW)),
  );
  const [newPlace, setNewPlace] = useState("");
  const [species, setSpecies] = useState(
    () => last?.species ?? [...families.values()][0]?.species ?? "chicken",
  );
  const own = [...families].filter(([, family]) => family.species === species);
  const [batches, setBatches] = useState<readonly Batch[]>(() => [newBatch(own[0])]);
  const [moment, setMoment] = useState<Moment>(NOW);
  const [lockdown, setLockdown] = useState<number | null>(null);
  const [fault, setFault] = useState<string | null>(null);

  const known = speciesNamed(species);
  const total = batches.reduce((sum, batch) => sum + batch.n, 0);
  const at = momentToDate(moment, new Date(now_ms));
  const calendar = known ? incubationCalendar(known, (at ?? new Date(now_ms)).getTime(), lockdown) : null;

  const chooseSpecies = (code: string) => {
    setSpecies(code);
    setLockdown(null);
    const first = [...families].find(([, family]) => family.species === code);
    setBatches(batches.map((batch) => ({ ...batch, ...newBatch(first), n: batch.n })));
  };
  const addBatch = () => {
    const used = new Set(batches.map((batch) => batch.family));
    setBatches([...batches, newBatch(own.find(([id]) => !used.has(id)) ?? own[0])]);
  };
  const start = () => {
    const wrong =
      place === NEW && !newPlace.trim()
        ? words.needPlace
        : batches.some((batch) => batch.family === NEW && !batch.name.trim())
          ? words.needFamily
          : batches.some((batch) => batch.n < 1)
            ? words.needCount
            : at === undefined
              ? everywhere.when.ahead
              : null;
    setFault(wrong);
    if (wrong || at === undefined) return;
    const id = openDesk().ids.next();
    void startSetting(
      {
        place: place === NEW ? { name: newPlace.trim(), role: "incubator" } : place,
        species,
        set_at: at ?? new Date(now_ms),
        lots: batches.map((batch) => {
          const sign = batch.sign.trim() || null;
          return {
            family: batch.family === NEW ? founding(batch, species, sign) : batch.family,
            n: batch.n,
            sign,
          };
        }),
        ...(lockdown === null ? {} : { lockdown_day: lockdown }),
      },
      id,
    );
    goTo(`/setting/${id}`, "replace"); // at once: a second tap on a slow phone would set the eggs twice
  };

  return (
    <Page headline={words.total(total)} under={known && calendar ? words.hatchOn(hatchText(calendar)) : null}>
      <div class="pair">
        <SelectField
          label={words.place}
          value={place}
          options={[
            ...machines.map(([id, machine]) => ({ value: id, text: machine.name })),
            { value: NEW, text: words.newPlace },
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
      {place === NEW && <TextField label={words.newPlace} value={newPlace} onType={setNewPlace} />}
      <section class="section" aria-label={words.family}>
        {batches.map((batch, i) => (
          <BatchEdit
            key={i}
            at={i + 1}
            batch={batch}
            families={own}
            onChange={(changed) => setBatches(batches.map((old, j) => (j === i ? changed : old)))}
            {...(batches.length > 1 ? { onRemove: () => setBatches(batches.filter((_, j) => j !== i)) } : {})}
          />
        ))}
        <div class="acts">
          <Press kind="plain" onPress={addBatch}>
            {words.addBatch}
          </Press>
        </div>
      </section>
      <WhenChooser moment={moment} now={new Date(now_ms)} onChange={setMoment} words={everywhere.when} />
      <details>
        <summary>
          {words.lockdown} {lockdown ?? known?.lockdownDay ?? "–"}
        </summary>
        <p class="quiet">{known ? words.lockdownUsual(known.lockdownDay) : words.unknownSpecies}</p>
        <Stepper
          label={words.lockdown}
          value={lockdown ?? known?.lockdownDay ?? 18}
          least={1}
          most={60}
          onChange={(day) => setLockdown(day === known?.lockdownDay ? null : day)}
          words={everywhere}
        />
      </details>
      <Notice>
        <p class="quiet small">{safety.mains}</p>
      </Notice>
      {fault && (
        <Notice tone="loss" live>
          {fault}
        </Notice>
      )}
      <div class="acts">
        <Press kind="main" onPress={start}>
          {words.start(total)}
        </Press>
      </div>
    </Page>
  );
}

function founding(batch: Batch, species: string, sign: string | null): Family {
  const name = batch.name.trim();
  return { name, species, breed: batch.breed.trim() || name, sign };
}

function hatchText({ hatchFrom, hatchTo }: ReturnType<typeof incubationCalendar>): string {
  const { zone } = standing.value.keeper;
  const [from, to] = [hatchFrom, hatchTo].map((milestone) => dayWords(milestone.atMs, zone));
  return from === to ? `${from}` : `${from} to ${to}`;
}
