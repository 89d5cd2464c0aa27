// Photos are too large for the copy of the book: they are saved as one file of their own, and taken in again from it.
import { useState } from "preact/hooks";
import { photoCopies as words } from "../app/words/copies.ts";
import { copyPhotos, readPhotos } from "../state/photo-copy.ts";
import { standing } from "../state/standing.ts";
import { useNow } from "./now.ts";
import { download } from "./parts/download.ts";
import { Press } from "./parts/press.tsx";
import { dayKey } from "./told-time.ts";

export function PhotoCopy() {
  const today = dayKey(useNow(), standing.value.keeper.zone);
  const [told, setTold] = useState<string | null>(null);
  if (!standing.value.heads.photo?.length) return null;
  const save = async () => {
    const { name, file, n, elsewhere } = await copyPhotos(today);
    if (n > 0) download(name, file);
    setTold(
      `${n > 0 ? words.saved(n, name) : words.noneHere} ${elsewhere > 0 ? words.elsewhere(elsewhere) : ""}`,
    );
  };
  const read = async (files: readonly File[]) => {
    const { kept, strangers } = await readPhotos(files);
    setTold(`${words.taken(kept)} ${strangers > 0 ? words.strangers(strangers) : ""}`);
  };
  return (
    <div class="section">
      <div class="acts">
        <Press kind="plain" onPress={() => void save().catch(() => setTold(words.notRead))}>
          {words.save}
        </Press>
        <label class="press plain">
          {words.read}
          <input
            type="file"
            class="picker"
            accept=".zip,image/*"
            multiple
            onChange={({ currentTarget: field }) => {
              const files = [...(field.files ?? [])];
              if (files.length > 0) void read(files).catch(() => setTold(words.notKept));
              field.value = ""; // the same file may be chosen again
            }}
          />
        </label>
      </div>
      <p class="quiet small" role="status">
        {told ?? words.hint}
      </p>
    </div>
  );
}
