// The end of a form: leave it, or write what was filled in.
import { everywhere } from "../../app/words/everywhere.ts";
import { Press } from "./press.tsx";

interface FormEndProps {
  /** What writing it is called here. */
  readonly save: string;
  readonly off?: boolean;
  readonly onSave: () => void;
  /** Undefined where the form must be filled in. */
  readonly onCancel?: (() => void) | undefined;
}

export function FormEnd({ save, off = false, onSave, onCancel }: FormEndProps) {
  return (
    <div class="acts">
      {onCancel && (
        <Press kind="plain" onPress={onCancel}>
          {everywhere.cancel}
        </Press>
      )}
      <Press kind="main" off={off} onPress={onSave}>
        {save}
      </Press>
    </div>
  );
}
