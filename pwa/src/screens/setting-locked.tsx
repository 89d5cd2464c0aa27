// When lockdown was done, and that it was at another time after all.
import { useState } from "preact/hooks";
import { machine } from "../app/words/machine.ts";
import { setting as words } from "../app/words/rooms.ts";
import type { Setting } from "../book/standing.ts";
import { amend } from "../state/holding.ts";
import { standing } from "../state/standing.ts";
import { Press } from "./parts/press.tsx";
import { Dating } from "./quick-acts.tsx";
import { clock, dayWords } from "./told-time.ts";

export function SettingLocked({ setting, now_ms }: { setting: Setting; now_ms: number }) {
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
        </Press>
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
