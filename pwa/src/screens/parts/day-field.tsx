// A calendar day by the phone's own chooser.
import { useId } from "preact/hooks";
import { FIRST_DAY } from "./moment.ts";

interface DayFieldProps {
  readonly label: string;
  readonly value: string;
  readonly max?: string;
  readonly min?: string;
  readonly onType: (day: string) => void;
  readonly fault?: string | null;
}

export function DayField({ label, value, max, min = FIRST_DAY, onType, fault = null }: DayFieldProps) {
  const id = useId();
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <input
        id={id}
        type="date"
        value={value}
        max={max}
        min={min}
        aria-invalid={fault !== null}
        onInput={(event) => onType(event.currentTarget.value)}
      />
      {fault && (
        <span class="fault" role="alert">
          {fault}
        </span>
      )}
    </div>
  );
}
