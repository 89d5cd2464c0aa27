// A newer app is ready. It is put in place when the keeper says so, never in the middle of a tally.
import { Press } from "./press.tsx";

interface UpdatePromptProps {
  readonly words: {
    readonly ready: string;
    readonly safe: string;
    readonly now: string;
    readonly later: string;
  };
  readonly onNow: () => void;
  readonly onLater: () => void;
}

export function UpdatePrompt({ words, onNow, onLater }: UpdatePromptProps) {
  return (
    <div class="notice plain" role="status">
      <p>
        <b>{words.ready}</b> <span class="quiet">{words.safe}</span>
      </p>
      <div class="acts">
        <Press kind="plain" onPress={onLater}>
          {words.later}
        </Press>
        <Press kind="firm" onPress={onNow}>
          {words.now}
        </Press>
      </div>
    </div>
  );
}
