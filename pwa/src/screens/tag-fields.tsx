// The mark of one bird: a ring by colour, leg and number, a wing tag, a web tag, a chip, or none of its own.
import { choosing as words } from "../app/words/choosing.ts";
import { marks as markWords } from "../app/words/marks.ts";
import type { Tag } from "../book/bodies.generated.ts";
import { standing } from "../state/standing.ts";
import { RING_COLOURS } from "../trade/marking.ts";
import { LEGS, type Leg } from "../trade/marks.ts";
import { ringWord } from "./bird-view.ts";
import { Choice } from "./parts/choice.tsx";
import { SelectField } from "./parts/select-field.tsx";
import { TextField } from "./parts/text-field.tsx";

const KINDS = ["ring", "wing", "web", "chip", "none"] as const;

export interface TagTyped {
  readonly kind: (typeof KINDS)[number];
  readonly colour: string;
  readonly leg: Leg;
  readonly text: string;
}

/** The tag as it is written; null where nothing was typed that tells it from another. */
export function tagTyped({ kind, colour, leg, text }: TagTyped): Tag | null {
  const said = text.trim();
  if (kind === "none") return null;
  if (kind !== "ring") return said ? { kind, text: said } : null;
  if (!colour && !said) return null;
  return { kind, leg, ...(colour ? { colour } : {}), ...(said ? { text: said } : {}) };
}

interface TagFieldsProps {
  readonly label: string;
  readonly typed: TagTyped;
  readonly onType: (typed: TagTyped) => void;
}

export function TagFields({ label, typed, onType }: TagFieldsProps) {
  const ring = ringWord(standing.value);
  const { kind, colour, leg, text } = typed;
  return (
    <>
      <SelectField
        label={label}
        value={kind}
        options={KINDS.map((value) => ({
          value,
          text: value === "ring" ? markWords.ways.ring(ring) : words.tags[value],
        }))}
        onChoose={(chosen) => onType({ ...typed, kind: KINDS.find((one) => one === chosen) ?? "none" })}
      />
      {kind === "ring" && (
        <div class="pair">
          <SelectField
            label={markWords.ring.colour}
            value={colour}
            options={[
              { value: "", text: "–" },
              ...RING_COLOURS.map((value) => ({ value, text: markWords.ring.colours[value] ?? value })),
            ]}
            onChoose={(chosen) => onType({ ...typed, colour: chosen })}
          />
          <Choice
            label={markWords.ring.leg}
            value={leg}
            options={LEGS.map((value) => ({ value, text: markWords.ring.legs[value] }))}
            onChoose={(chosen) => onType({ ...typed, leg: chosen })}
          />
        </div>
      )}
      {kind !== "none" && (
        <TextField
          label={words.number}
          value={text}
          most={20}
          capitals="characters"
          onType={(said) => onType({ ...typed, text: said })}
        />
      )}
    </>
  );
}
