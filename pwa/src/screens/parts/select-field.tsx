// One of many, by the phone's own chooser.
import { useId } from "preact/hooks";

interface SelectFieldProps {
  readonly label: string;
  readonly value: string;
  readonly options: readonly { readonly value: string; readonly text: string }[];
  readonly onChoose: (value: string) => void;
  readonly hint?: string;
}

export function SelectField({ label, value, options, onChoose, hint }: SelectFieldProps) {
  const id = useId();
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <select id={id} value={value} onChange={(event) => onChoose(event.currentTarget.value)}>
        {options.map((option) => (
          <option key={option.value} value={option.value} selected={option.value === value}>
            {option.text}
          </option>
        ))}
      </select>
      {hint && <span class="hint">{hint}</span>}
    </div>
  );
}
