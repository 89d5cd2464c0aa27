// Naming a family, or putting its name right.
import { useState } from "preact/hooks";
import { everywhere } from "../app/words/everywhere.ts";
import { families as words } from "../app/words/setup.ts";
import type { Family } from "../book/bodies.generated.ts";
import { ownWords } from "../book/own-words.ts";
import { standing } from "../state/standing.ts";
import { SPECIES } from "../trade/species.ts";
import { FormEnd } from "./parts/form-end.tsx";
import { SelectField } from "./parts/select-field.tsx";
import { TextField } from "./parts/text-field.tsx";

export const speciesOptions = (): { value: string; text: string }[] =>
  [...SPECIES.values()].map((species) => ({ value: species.code, text: species.name }));

const SHELLS = ["white", "tinted", "brown", "dark", "blue", "other"] as const;
type Shell = (typeof SHELLS)[number];

interface FamilyFormProps {
  readonly start: Partial<Family>;
  /** The family that is changed: its own name and sign are no clash. */
  readonly id?: string;
  readonly onSave: (family: Family) => void;
  readonly onCancel?: () => void;
}

export function FamilyForm({ start, id, onSave, onCancel }: FamilyFormProps) {
  const [name, setName] = useState(start.name ?? "");
  const [species, setSpecies] = useState(start.species ?? "chicken");
  const [breed, setBreed] = useState(start.breed ?? "");
  const [variety, setVariety] = useState(start.variety ?? "");
  const [sign, setSign] = useState(start.sign ?? "");
  const [shell, setShell] = useState<Shell | "">(start.shell ?? "");
  const [asked, setAsked] = useState(false);
  const others = [...standing.value.families].filter(([other]) => other !== id).map(([, family]) => family);
  const alike = (a: string, b: string | null | undefined) =>
    a.trim().toLowerCase() === b?.trim().toLowerCase();
  const sameName = name.trim() ? others.find((other) => alike(name, other.name)) : undefined;
  const sameSign = sign.trim() ? others.find((other) => alike(sign, other.sign)) : undefined;
  const own = ownWords(standing.value.keeper.words).family.one;
  const save = () => {
    setAsked(true);
    if (!name.trim() || !breed.trim()) return;
    onSave({
      ...start,
      name: name.trim(),
      species,
      breed: breed.trim(),
      variety: variety.trim() || null,
      sign: sign.trim() || null,
      shell: shell || null,
    });
  };
  return (
    <div>
      <TextField
        label={words.name}
        value={name}
        onType={setName}
        hint={sameName ? words.nameUsed(sameName.name, own) : words.nameHint}
        fault={asked && !name.trim() ? words.needName(own) : null}
        capitals="words"
      />
      <div class="pair">
        <SelectField label={words.species} value={species} options={speciesOptions()} onChoose={setSpecies} />
        <TextField
          label={words.breed}
          value={breed}
          onType={setBreed}
          hint={words.breedHint}
          fault={asked && !breed.trim() ? words.needBreed : null}
          capitals="words"
        />
      </div>
      <div class="pair">
        <TextField
          label={words.sign}
          value={sign}
          onType={setSign}
          most={12}
          hint={sameSign ? words.signUsed(sign.trim(), sameSign.name) : words.signHint}
          capitals="characters"
        />
        <SelectField
          label={words.shell}
          value={shell}
          options={[
            { value: "", text: everywhere.none },
            ...SHELLS.map((value) => ({ value, text: words.shells[value] })),
          ]}
          onChoose={(value) => setShell(SHELLS.find((one) => one === value) ?? "")}
          {...(shell === "dark" ? { hint: words.darkNote } : {})}
        />
      </div>
      <TextField label={words.variety} value={variety} onType={setVariety} />
      <FormEnd save={words.save(own)} onSave={save} onCancel={onCancel} />
    </div>
  );
}
