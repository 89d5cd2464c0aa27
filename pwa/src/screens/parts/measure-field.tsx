// A measured number, typed with comma or dot; what it reads as, or what is wrong with it.
import { type Reading, readDecimal } from "./read-number.ts";
import { TextField } from "./text-field.tsx";

interface MeasureFieldProps {
  readonly label: string;
  readonly text: string;
  readonly onType: (text: string) => void;
  /** What is wrong, where something is; shown once the keeper asked to save. */
  readonly fault: string | null;
  readonly hint?: string;
  readonly onEnter?: () => void;
}

export function MeasureField({ label, text, onType, fault, hint, onEnter }: MeasureFieldProps) {
  return (
    <TextField
      label={label}
      value={text}
      onType={onType}
      fault={fault}
      inputMode="decimal"
      most={12}
      {...(hint ? { hint } : {})}
      {...(onEnter ? { onEnter } : {})}
    />
  );
}

/** The number that was typed, or null. */
export const measured = (text: string): number | null => {
  const read: Reading = readDecimal(text);
  return read.ok ? read.value : null;
};

/** What to say of a text that is no number; null where it is one. */
export function numberFault(text: string, words: { empty: string; number: string }): string | null {
  const read = readDecimal(text);
  return read.ok ? null : read.why === "empty" ? words.empty : words.number;
}
