import { openDB } from "idb";
import { bookName } from "./schema.ts";

const PREFIX = bookName("");

/** The holdings whose books lie in this browser, whatever version of the app made them. */
export async function booksHere(): Promise<string[]> {
  const found = (await indexedDB.databases?.()) ?? [];
  return found
    .flatMap(({ name = "" }) => (name.startsWith(PREFIX) ? [name.slice(PREFIX.length)] : []))
    .sort();
}

/**
 * Every text of a book that this app cannot open, for a newer one has changed it: opened as it is and only read.
 * Versions only add stores, so entries lie where they always did. Rejects where there is no such book.
 */
export async function textsOf(holding: string): Promise<string[]> {
  const db = await openDB(bookName(holding), undefined, {
    upgrade(_db, _from, _to, tx) {
      tx.done.catch(() => undefined); // told by the opening itself
      tx.abort(); // there was none: leave none behind
    },
  });
  try {
    const rows: { text: string }[] = [...(await db.getAll("entries")), ...(await db.getAll("apart"))];
    return rows.map((row) => row.text);
  } finally {
    db.close();
  }
}
