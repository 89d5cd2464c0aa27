// What was written just now, and the way back.
import { Notice } from "./notice.tsx";
import { Press } from "./press.tsx";

interface UndoNoticeProps {
  readonly said: string;
  readonly word: string;
  readonly onUndo: () => void;
}

export function UndoNotice({ said, word, onUndo }: UndoNoticeProps) {
  return (
    <Notice live>
      <p>{said}</p>
      <Press kind="bare" onPress={onUndo}>
        {word}
      </Press>
    </Notice>
  );
}
