// No book can be opened: what lies in this browser can still be saved as a copy.
import { useEffect, useState } from "preact/hooks";
import { rescue as words } from "../app/words/copies.ts";
import type { BookCopy } from "../state/copy.ts";
import { rescuedCopies } from "../state/rescue.ts";
import { SaveCopy } from "./save-copy.tsx";

export function Rescue() {
  const [copies, setCopies] = useState<readonly BookCopy[]>([]);
  useEffect(() => {
    void rescuedCopies().then(setCopies);
  }, []);
  return (
    <>
      {copies.map((copy) => (
        <SaveCopy key={copy.text} hint={words(copy.n)} of={async () => copy} />
      ))}
    </>
  );
}
