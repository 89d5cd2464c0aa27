// A line of text with its label above and, when something is wrong, what to do below.
import { useId } from "preact/hooks";

interface TextFieldProps {
  readonly label: string;
  readonly value: string;
  readonly onType: (text: string) => void;
  readonly hint?: string;
  readonly fault?: string | null;
  readonly inputMode?: "text" | "numeric" | "decimal";
  readonly capitals?: "off" | "words" | "characters" | "sentences";
  readonly most?: number;
  readonly placeholder?: string;
  readonly onEnter?: () => void;
}

export function TextField(props: TextFieldProps) {
  const id = useId();
  const told = props.fault ?? props.hint;
  return (
    <div class="field">
      <label for={id}>{props.label}</label>
      <input
        id={id}
        value={props.value}
        maxLength={props.most ?? 80}
        inputMode={props.inputMode ?? "text"}
        autocapitalize={props.capitals ?? "sentences"}
        autocomplete="off"
        spellcheck={false}
        placeholder={props.placeholder}
        aria-invalid={Boolean(props.fault)}
        aria-describedby={told ? `${id}-told` : undefined}
        onInput={(event) => props.onType(event.currentTarget.value)}
        onKeyDown={(event) => {
          if (event.key === "Enter") props.onEnter?.();
        }}
      />
      {told && (
        <span id={`${id}-told`} class={props.fault ? "fault" : "hint"}>
          {told}
        </span>
      )}
    </div>
  );
}
