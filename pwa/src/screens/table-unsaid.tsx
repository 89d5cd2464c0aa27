// The species and breed of rows that do not say theirs, asked once for all of them.
import { useState } from "preact/hooks";
import { tables as words } from "../app/words/tables.ts";
import type { TableSent } from "../state/tables.ts";
import { SPECIES } from "../trade/species.ts";
import { Press } from "./parts/press.tsx";
import { SelectField } from "./parts/select-field.tsx";
import { TextField } from "./parts/text-field.tsx";
import { Section } from "./section.tsx";

interface UnsaidProps {
  readonly asked: readonly string[];
  readonly sent: TableSent;
  readonly onChange: (change: Pick<TableSent, "species" | "breed">) => void;
}

export function Unsaid({ asked, sent, onChange }: UnsaidProps) {
  const [breed, setBreed] = useState(sent.breed ?? "");
  const species = [...SPECIES.values()].map((one) => ({ value: one.code, text: one.name }));
  const tellBreed = () => onChange({ breed: breed.trim() });
  return (
    <Section title={words.asked}>
      {asked.includes("species") && (
        <SelectField
          label={words.species}
          value={sent.species ?? ""}
          options={[{ value: "", text: words.unsaid }, ...species]}
          onChoose={(one) => onChange({ species: one })}
        />
      )}
      {asked.includes("breed") && (
        <>
          <TextField
            label={words.breed}
            value={breed}
            capitals="words"
            onType={setBreed}
            onEnter={tellBreed}
          />
          <div class="acts">
            <Press kind="plain" off={breed.trim() === (sent.breed ?? "")} onPress={tellBreed}>
              {words.readAgain}
            </Press>
          </div>
        </>
      )}
    </Section>
  );
}
