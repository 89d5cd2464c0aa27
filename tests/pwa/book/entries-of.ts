import { type Entry, parseEntry } from "../../../pwa/src/book/entries.ts";

/** Entries as written in a vector; one whose envelope is wrong is a fault of the test. */
export function entriesOf(written: readonly unknown[]): Entry[] {
  return written.map((value) => {
    const entry = parseEntry(value);
    if (entry instanceof Error) throw entry;
    return entry;
  });
}
