import { type Entry, parseEntry } from "../../../pwa/src/book/entries.ts";

/** Entries as written in a vector; one whose envelope is wrong is a fault of the test. */
export function entriesOf(written: readonly unknown[]): Entry[] {
  return written.map((value) => {
    const entry = parseEntry(value);
    if (entry instanceof Error) throw entry;
    return entry;
  });
}

export const idOf = (n: number): string => `01950000-0000-7000-8000-${n.toString(16).padStart(12, "0")}`;

/** What was written at a time, with an envelope of which nothing is special. */
export function written(n: number, kind: string, body: object, at_ms: number) {
  const envelope = { v: 1, device: "phone-1", zone: "UTC", skew_ms: null, amends: null, void: false };
  return { id: idOf(n), kind, body, at: new Date(at_ms).toISOString(), ...envelope };
}
