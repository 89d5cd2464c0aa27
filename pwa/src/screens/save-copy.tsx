// One file with every entry of the book: saved by the phone like any download, or handed to another app of it.
import { useState } from "preact/hooks";
import { copies as words } from "../app/words/copies.ts";
import { type BookCopy, copyBook } from "../state/copy.ts";
import { openDesk } from "../state/desk.ts";
import { canHandOn, handOn } from "../state/handing-on.ts";
import { download } from "./parts/download.ts";
import { Press } from "./parts/press.tsx";

interface SaveCopyProps {
  readonly hint?: string;
  /** The open book, unless said otherwise. */
  readonly of?: () => Promise<BookCopy>;
}

export function SaveCopy({ hint, of = () => copyBook(openDesk().now_ms()) }: SaveCopyProps) {
  const [told, setTold] = useState<string | null>(null);
  const make = (use: (copy: BookCopy) => void | Promise<void>) => () =>
    void of().then(use, () => setTold(words.notRead));
  const save = (copy: BookCopy) => {
    download(copy.name, new Blob([copy.text], { type: "application/jsonl" }));
    setTold(words.saved(copy.name));
  };
  const send = async (copy: BookCopy) => {
    const outcome = await handOn(copy);
    if (outcome === "refused") save(copy);
    else setTold(outcome === "sent" ? words.sent(copy.name) : null);
  };
  return (
    <div class="section">
      <div class="acts">
        <Press kind="plain" onPress={make(save)}>
          {words.save}
        </Press>
        {canHandOn() && (
          <Press kind="plain" onPress={make(send)}>
            {words.send}
          </Press>
        )}
      </div>
      <p class="quiet small" role="status">
        {told ?? hint}
      </p>
    </div>
  );
}
