// A whole number: one down, one up, or typed. What is typed is kept as it stands until it reads as a number.
import { useEffect, useState } from "preact/hooks";
import { Press } from "./press.tsx";
import { readCount } from "./read-number.ts";

interface StepperProps {
  readonly label: string;
  readonly value: number;
  readonly least?: number;
  readonly most?: number;
  readonly onChange: (value: number) => void;
  readonly words: {
    readonly fewer: string;
    readonly more: string;
    readonly range: (least: number, most: number) => string;
  };
}

export function Stepper({ label, value, least = 0, most = 9999, onChange, words }: StepperProps) {
  const [text, setText] = useState(String(value));
  const [fault, setFault] = useState(false);
  useEffect(() => {
    setText((old) => {
      const read = readCount(old, least, most);
      return read.ok && read.value === value ? old : String(value);
    });
    setFault(false);
  }, [value, least, most]);
  const type = (typed: string) => {
    setText(typed);
    const read = readCount(typed, least, most);
    setFault(!read.ok && read.why !== "empty");
    if (read.ok) onChange(read.value);
  };
  const step = (by: number) => onChange(Math.min(most, Math.max(least, value + by)));
  return (
    <div>
      <fieldset class="stepper" aria-label={label}>
        <Press name={words.fewer} off={value <= least} onPress={() => step(-1)}>
          −
        </Press>
        <input
          inputMode="numeric"
          autocomplete="off"
          enterkeyhint="done"
          aria-label={label}
          aria-invalid={fault}
          value={text}
          onInput={(event) => type(event.currentTarget.value)}
          onFocus={(event) => event.currentTarget.select()}
          onBlur={() => {
            setText(String(value));
            setFault(false);
          }}
        />
        <Press name={words.more} off={value >= most} onPress={() => step(1)}>
          +
        </Press>
      </fieldset>
      {fault && (
        <p class="fault" role="status">
          {words.range(least, most)}
        </p>
      )}
    </div>
  );
}
