// A copy that some phone saved is taken into the open book: what is missing here is added, nothing is changed. What
// seems to be another holding's goes in only where the keeper says so in a second step.
import { useState } from "preact/hooks";
import { copies as words } from "../app/words/copies.ts";
import { type CopyFound, lookInto, takeIn } from "../state/copy.ts";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";

export function ReadCopy() {
  const [told, setTold] = useState<string | null>(null);
  const [other, setOther] = useState<CopyFound | null>(null);
  const take = async (found: CopyFound) => {
    setOther(null);
    const n = await takeIn(found);
    const { bad } = found;
    const faults = bad.length > 0 ? ` ${words.badLines(bad.map((one) => one.line))}` : "";
    setTold(words.taken(n) + faults);
  };
  const read = async (file: File) => {
    const found = await lookInto(await file.text());
    if (found.other === null) return take(found);
    setTold(null);
    setOther(found);
  };
  const failed = () => setTold(words.notKept);
  return (
    <div class="section">
      <div class="acts">
        <label class="press plain">
          {words.read}
          <input
            type="file"
            class="picker"
            accept=".jsonl,.txt"
            onChange={({ currentTarget: field }) => {
              const file = field.files?.[0];
              if (file) void read(file).catch(failed);
              field.value = ""; // the same file may be chosen again
            }}
          />
        </label>
      </div>
      {other?.other && (
        <Notice tone="watch" live>
          <p>{words.other(other.other.name)}</p>
          <p>{words.otherWhy}</p>
          <div class="acts">
            <Press kind="plain" onPress={() => setOther(null)}>
              {words.leaveOther}
            </Press>
            <Press kind="plain" onPress={() => void take(other).catch(failed)}>
              {words.takeOther}
            </Press>
          </div>
        </Notice>
      )}
      <p class="quiet small" role="status">
        {told ?? words.readHint}
      </p>
    </div>
  );
}
