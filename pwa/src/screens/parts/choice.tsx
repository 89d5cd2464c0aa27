// A few answers side by side, one of them chosen. Arrow keys walk through them.
import { useRef } from "preact/hooks";
import { Press } from "./press.tsx";

interface ChoiceProps<Value extends string> {
  readonly label: string;
  readonly labelHidden?: boolean;
  readonly value: Value | null;
  readonly options: readonly { readonly value: Value; readonly text: string }[];
  readonly onChoose: (value: Value) => void;
}

export function Choice<Value extends string>({
  label,
  labelHidden,
  value,
  options,
  onChoose,
}: ChoiceProps<Value>) {
  const group = useRef<HTMLDivElement>(null);
  const walk = (event: KeyboardEvent) => {
    const step = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
    if (!step) return;
    event.preventDefault();
    const at = options.findIndex((option) => option.value === value);
    const to = (at + step + options.length) % options.length;
    const next = options[to];
    if (!next) return;
    onChoose(next.value);
    group.current?.querySelectorAll<HTMLElement>("[role=radio]")[to]?.focus();
  };
  return (
    <div class="field">
      <span class={labelHidden ? "heard" : "label"}>{label}</span>
      <div class="choice" role="radiogroup" aria-label={label} ref={group} onKeyDown={walk}>
        {options.map((option) => (
          <Press
            key={option.value}
            role="radio"
            checked={option.value === value}
            onPress={() => onChoose(option.value)}
          >
            {option.text}
          </Press>
        ))}
      </div>
    </div>
  );
}
