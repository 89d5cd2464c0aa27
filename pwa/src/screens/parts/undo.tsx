// Takes the last act back. Named by what it takes back, so that nobody has to ask.
import { Press } from "./press.tsx";

interface UndoProps {
  readonly word: string;
  readonly last: string | null;
  readonly onUndo: () => void;
}

export function Undo({ word, last, onUndo }: UndoProps) {
  return (
    <Press kind="plain" class="undo" off={last === null} onPress={onUndo} keys="Backspace">
      <span>
        {word}
        <br />
        <span class="quiet">{last ?? "–"}</span>
      </span>
    </Press>
  );
}
