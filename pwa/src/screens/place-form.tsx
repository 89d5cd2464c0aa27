// Naming a machine or a room.
import { useState } from "preact/hooks";
import { everywhere } from "../app/words/everywhere.ts";
import { rooms as words } from "../app/words/rooms.ts";
import type { Place } from "../book/bodies.generated.ts";
import { Choice } from "./parts/choice.tsx";
import { Press } from "./parts/press.tsx";
import { TextField } from "./parts/text-field.tsx";

const ROLES = ["incubator", "hatcher", "brooder", "hen"] as const;

export function PlaceForm({ onSave, onCancel }: { onSave: (place: Place) => void; onCancel?: () => void }) {
  const [name, setName] = useState("");
  const [role, setRole] = useState<(typeof ROLES)[number]>("incubator");
  const [asked, setAsked] = useState(false);
  const save = () => {
    setAsked(true);
    if (name.trim()) onSave({ name: name.trim(), role });
  };
  return (
    <div>
      <TextField
        label={words.name}
        value={name}
        onType={setName}
        hint={words.nameHint}
        fault={asked && !name.trim() ? words.nameNeeded : null}
        onEnter={save}
      />
      <Choice
        label={words.role}
        value={role}
        options={ROLES.map((value) => ({ value, text: words.roles[value] }))}
        onChoose={setRole}
      />
      <div class="acts">
        {onCancel && (
          <Press kind="plain" onPress={onCancel}>
            {everywhere.cancel}
          </Press>
        )}
        <Press kind="main" onPress={save}>
          {everywhere.save}
        </Press>
      </div>
    </div>
  );
}
