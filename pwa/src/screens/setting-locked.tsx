// When lockdown was done, and that it was at another time after all.
import { useState } from "preact/hooks";
import { machine } from "../app/words/machine.ts";
import { setting as words } from "../app/words/rooms.ts";
import type { Entry } from "../book/entries.ts";
import type { Setting } from "../book/standing.ts";
import { undo } from "../state/actions.ts";
import { amend } from "../state/holding.ts";
import { standing } from "../state/standing.ts";
import { Press } from "./parts/press.tsx";
import { Dating } from "./quick-acts.tsx";
import { clock, dayWords } from "./told-time.ts";

interface SettingLockedProps {
  readonly setting: Setting;
  readonly now_ms: number;
  /** What one tap on this page wrote: taken back by one tap. */
  readonly done: readonly Entry[];
}

export function SettingLocked({ setting, now_ms, done }: SettingLockedProps) {
  const [dating, setDating] = useState(false);
  const { keeper, heads, rootOf } = standing.value;
  const at_ms = setting.lockedAtMs;
  const head = (heads.locked ?? []).find(
    ({ body, atMs }) => (rootOf.get(body.setting) ?? body.setting) === setting.id && atMs === at_ms,
  );
  if (at_ms === null || !head) return null;
  return (
    <>
      <p class="quiet small">
        {words.locked(`${dayWords(at_ms, keeper.zone)}, ${clock(at_ms, keeper.zone)}`)}{" "}
        <Press kind="bare" expanded={dating} onPress={() => setDating(!dating)}>
          {machine.another}
        </Press>{" "}
        {done.some(({ id }) => id === head.root) && (
          <Press
            kind="bare"
            name={`${machine.undo}: ${words.next.lockdown}`}
            onPress={() => void undo(...done.map(({ id }) => id))}
          >
            {machine.undo}
          </Press>
        )}
      </p>
      {dating && (
        <Dating
          now_ms={now_ms}
          onSave={(at) => {
            void amend(head.root, "locked", head.body, at);
            setDating(false);
          }}
        />
      )}
    </>
  );
}
