import type { Entry } from "../book/entries.ts";
import type { PlacedEntry, StoredEntry } from "./port.ts";
import type { EntryRow } from "./schema.ts";

/** Rows were written by `append` or checked by the pull, so their text is an entry's. */
export function storedEntry(row: EntryRow): StoredEntry {
  return {
    id: row.id,
    entry: JSON.parse(row.text) as Entry,
    position: row.position,
    aside: row.aside ?? null,
  };
}

/** A row that the server showed: no longer waiting, no longer set aside. */
export function placedRow(row: PlacedEntry): EntryRow {
  return { id: row.id, text: row.text, position: row.position };
}
