// A copy that some phone saved is taken into the open book: what is missing here is added, nothing is changed.
import { useState } from "preact/hooks";
import { copies as words } from "../app/words/copies.ts";
import { readCopy } from "../state/copy.ts";

export function ReadCopy() {
  const [told, setTold] = useState<string | null>(null);
  const read = async (file: File) => {
    const { n, bad } = await readCopy(await file.text());
    const faults = bad.length > 0 ? ` ${words.badLines(bad.map((one) => one.line))}` : "";
    setTold(words.taken(n) + faults);
  };
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
              if (file) void read(file).catch(() => setTold(words.notKept));
              field.value = ""; // the same file may be chosen again
            }}
          />
        </label>
      </div>
      <p class="quiet small" role="status">
        {told ?? words.readHint}
      </p>
    </div>
  );
}
