// Naming a machine, a room, a store or a hen, or changing what is known of it.
import { useState } from "preact/hooks";
import { everywhere } from "../app/words/everywhere.ts";
import { places as words } from "../app/words/holding.ts";
import { rooms } from "../app/words/rooms.ts";
import { birdId, birdsOf } from "../book/birds.ts";
import type { Place } from "../book/bodies.generated.ts";
import { standing } from "../state/standing.ts";
import { Choice } from "./parts/choice.tsx";
import { FormEnd } from "./parts/form-end.tsx";
import { Notice } from "./parts/notice.tsx";
import { readCount } from "./parts/read-number.ts";
import { SelectField } from "./parts/select-field.tsx";
import { TextField } from "./parts/text-field.tsx";

type Role = Place["role"];

const ROLES = ["incubator", "hatcher", "brooder", "hen", "store", "pen", "apart"] as const satisfies Role[];
const AIRS = ["forced", "still"] as const;
const TURNINGS = ["auto", "hand"] as const;
const HOLD_EGGS: readonly Role[] = ["incubator", "hatcher", "hen"];
const MOST_EGGS = 100_000;

interface PlaceFormProps {
  readonly start?: Place;
  /** What a new one is taken to be until another is chosen. */
  readonly usual?: Role;
  readonly onSave: (place: Place) => void;
  readonly onCancel?: () => void;
}

export function PlaceForm({ start, usual = "incubator", onSave, onCancel }: PlaceFormProps) {
  const [name, setName] = useState(start?.name ?? "");
  const [role, setRole] = useState<Role>(start?.role ?? usual);
  const [air, setAir] = useState(start?.air ?? null);
  const [turns, setTurns] = useState(start?.turns ?? null);
  const [capacity, setCapacity] = useState(String(start?.capacity ?? ""));
  const [bird, setBird] = useState(start?.bird ?? "");
  const [asked, setAsked] = useState(false);
  const machine = role === "incubator" || role === "hatcher";
  const holds = readCount(capacity, 1, MOST_EGGS);
  const holdsEggs = HOLD_EGGS.includes(role);
  const holdsFault = holdsEggs && !holds.ok && holds.why !== "empty";
  const save = () => {
    setAsked(true);
    if (!name.trim() || holdsFault) return;
    onSave({
      ...start,
      name: name.trim(),
      role,
      air: machine ? air : null,
      turns: role === "incubator" ? turns : null,
      capacity: holdsEggs && holds.ok ? holds.value : null,
      bird: role === "hen" && bird ? bird : null,
    });
  };
  return (
    <div>
      <TextField
        label={rooms.name}
        value={name}
        onType={setName}
        hint={rooms.nameHint}
        fault={asked && !name.trim() ? rooms.nameNeeded : null}
        onEnter={save}
        capitals="words"
      />
      <Choice
        label={rooms.role}
        value={role}
        options={ROLES.map((value) => ({ value, text: words.roles[value] }))}
        onChoose={setRole}
      />
      {machine && (
        <Choice
          label={words.air}
          value={air}
          options={AIRS.map((value) => ({ value, text: words.airs[value] }))}
          onChoose={setAir}
        />
      )}
      {role === "incubator" && (
        <Choice
          label={words.turns}
          value={turns}
          options={TURNINGS.map((value) => ({ value, text: words.turnings[value] }))}
          onChoose={setTurns}
        />
      )}
      {role === "hen" && (
        <>
          <HenSelect label={words.hen} value={bird} none={words.henUnknown} onChoose={setBird} />
          <Notice>{words.henNote}</Notice>
        </>
      )}
      {holdsEggs && (
        <TextField
          label={words.capacity}
          value={capacity}
          onType={setCapacity}
          inputMode="numeric"
          hint={words.capacityHint}
          fault={holdsFault ? words.capacityFault : null}
          most={7}
        />
      )}
      {role === "apart" && <p class="quiet section-note">{words.apartNote}</p>}
      <FormEnd save={everywhere.save} onSave={save} onCancel={onCancel} />
    </div>
  );
}

interface HenSelectProps {
  readonly label: string;
  readonly value: string;
  /** What choosing no hen means. */
  readonly none: string;
  readonly onChoose: (bird: string) => void;
  readonly family?: string;
}

/** The hens that are here, or of one family, and the one that was chosen; nothing where there is none. */
export function HenSelect({ label, value, none, onChoose, family }: HenSelectProps) {
  const totals = standing.value;
  const chosen = value && birdId(totals, value);
  const root = (id: string) => totals.rootOf.get(id) ?? id;
  const isOf = (of: string | null | undefined) => !family || !of || root(of) === root(family);
  const hens = [...birdsOf(totals, null).values()].filter(
    ({ id, body, where }) =>
      id === chosen || (body.sex === "female" && where === "here" && isOf(body.family)),
  );
  if (hens.length === 0) return null;
  const named = hens.map(({ id, label }) => ({ value: id, text: label }));
  return (
    <SelectField
      label={label}
      value={chosen}
      options={[{ value: "", text: none }, ...named]}
      onChoose={onChoose}
    />
  );
}
