/**
 * The one kept sum, beside the entries it was made of. Each write of an entry says in its own transaction what the sum
 * did not see, and the count of all entries must agree, so that a sum of another set is never taken for this one's.
 */
import type { IDBPDatabase } from "idb";
import type { KeptStart, KeptSum } from "./port.ts";
import { storedEntry } from "./rows.ts";
import type { BookSchema, EntryRow } from "./schema.ts";

/** What stands beside a sum, all read in one transaction. */
export interface SumRows {
  readonly sum: KeptSum | null;
  readonly n: number;
  readonly replaced: number;
  readonly since: readonly EntryRow[];
  readonly here: readonly EntryRow[];
}

export async function readSum(db: IDBPDatabase<BookSchema>): Promise<SumRows> {
  const tx = db.transaction(["entries", "marks", "sums", "unsummed"]);
  const entries = tx.objectStore("entries");
  const [sum, n, replaced, unsummed, waiting, aside] = await Promise.all([
    tx.objectStore("sums").get("standing"),
    entries.count(),
    tx.objectStore("marks").get("replaced"),
    tx.objectStore("unsummed").getAllKeys(),
    entries.index("waiting").getAll(),
    entries.index("aside").getAll(),
  ]);
  const since = sum ? await Promise.all(unsummed.map((id) => entries.get(id))) : [];
  return {
    sum: sum ?? null,
    n,
    replaced: Number(replaced ?? 0),
    since: since.filter((row) => row !== undefined),
    here: [...waiting, ...aside],
  };
}

/** Null where the sum is another app's, or does not fit the entries that are held. */
export function startFrom({ sum, n, replaced, since, here }: SumRows, reader: string): KeptStart | null {
  if (!sum || sum.reader !== reader || sum.replaced !== replaced) return null;
  if (sum.n + since.length !== n) return null;
  return { sum, since: since.map(storedEntry), here: here.map(storedEntry), n };
}

/** False, and nothing kept, where `saw` and the entries that are held now differ by more than what is still unsummed. */
export async function writeSum(
  db: IDBPDatabase<BookSchema>,
  sum: KeptSum,
  saw: (id: string) => boolean,
): Promise<boolean> {
  const tx = db.transaction(["entries", "marks", "sums", "unsummed"], "readwrite");
  const [n, replaced, unsummed] = await Promise.all([
    tx.objectStore("entries").count(),
    tx.objectStore("marks").get("replaced"),
    tx.objectStore("unsummed").getAllKeys(),
  ]);
  const seen = unsummed.filter(saw);
  const fits = sum.n + unsummed.length - seen.length === n && Number(replaced ?? 0) === sum.replaced;
  if (fits) {
    await Promise.all([
      tx.objectStore("sums").put(sum, "standing"),
      ...seen.map((id) => tx.objectStore("unsummed").delete(id)),
    ]);
  }
  await tx.done;
  return fits;
}
