// One file with every entry of the book, saved by the phone like any download.
import { useState } from "preact/hooks";
import { phone as words } from "../app/words/setup.ts";
import { type BookCopy, copyBook } from "../state/copy.ts";
import { openDesk } from "../state/desk.ts";
import { Press } from "./parts/press.tsx";

interface SaveCopyProps {
  readonly hint?: string;
  /** The open book, unless said otherwise. */
  readonly of?: () => Promise<BookCopy>;
}

export function SaveCopy({ hint, of = () => copyBook(openDesk().now_ms()) }: SaveCopyProps) {
  const [saved, setSaved] = useState<string | null>(null);
  const save = async () => {
    const { name, text } = await of();
    const url = URL.createObjectURL(new Blob([text], { type: "application/jsonl" }));
    const link = document.createElement("a");
    link.href = url;
    link.download = name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(url), 60_000);
    setSaved(name);
  };
  return (
    <div class="section">
      <div class="acts">
        <Press kind="plain" onPress={() => void save()}>
          {words.copy}
        </Press>
      </div>
      <p class="quiet small" role="status">
        {saved ? words.copySaved(saved) : hint}
      </p>
    </div>
  );
}
