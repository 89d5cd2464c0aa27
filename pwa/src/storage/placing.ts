/** What the server's log does to the rows of a book: places, resets and refusals, each in one transaction. */
import type { IDBPDatabase, IDBPTransaction } from "idb";
import type { PlacedEntry, Refusal } from "./port.ts";
import { placedRow } from "./rows.ts";
import type { BookSchema } from "./schema.ts";
import { settled } from "./settled.ts";

/** More new entries at once, and the kept sum is too old to go on from. */
const A_FEW = 20;

type Db = IDBPDatabase<BookSchema>;
type Tx = IDBPTransaction<BookSchema, ("entries" | "apart" | "marks" | "sums" | "unsummed")[], "readwrite">;

export async function placePage(db: Db, rows: readonly PlacedEntry[], cursor: string): Promise<void> {
  const tx: Tx = db.transaction(["entries", "apart", "marks", "sums", "unsummed"], "readwrite");
  const entries = tx.objectStore("entries");
  const [added, replaced]: [string[], string[]] = [[], []];
  await settled(tx.done, [
    Promise.all(
      rows.map(async (row) => {
        const held = await entries.get(row.id);
        if (!held) added.push(row.id);
        else if (held.text !== row.text) {
          replaced.push(row.id);
          await tx.objectStore("apart").put({ id: held.id, text: held.text });
        }
        await entries.put(placedRow(row));
      }),
    ).then(() => outdate(tx, added, replaced)),
    tx.objectStore("marks").put(cursor, "cursor"),
  ]);
}

/** All rows are asked for at once: one after another, 20,000 outlasted the watchdog on a slow phone, at each try. */
export async function clearPlaces(db: Db): Promise<void> {
  const tx = db.transaction(["entries", "marks"], "readwrite", { durability: "strict" });
  const entries = tx.objectStore("entries");
  await settled(tx.done, [
    tx.objectStore("marks").delete("cursor"),
    (async () => {
      const placed = (await entries.getAll()).filter((row) => row.waiting !== 1);
      await Promise.all(placed.map(({ id, text }) => entries.put({ id, text, position: null, waiting: 1 })));
    })(),
  ]);
}

export async function putAside(db: Db, id: string, refusal: Refusal): Promise<void> {
  const tx = db.transaction("entries", "readwrite", { durability: "strict" });
  await settled(tx.done, [
    (async () => {
      const held = await tx.store.get(id);
      if (held?.position !== null) return; // unknown, or taken by the server meanwhile
      await tx.store.put({ id, text: held.text, position: null, aside: refusal });
    })(),
  ]);
}

/** Whether another version of the server may take what this one refused. */
export function isHopeful({ code }: Refusal): boolean {
  return code !== "clash" && code !== "purged";
}

/** The ids of what waits again; none where this version refused it already. */
export async function putForward(db: Db, version: string): Promise<string[]> {
  if ((await db.get("marks", "offered_to")) === version) return [];
  const tx = db.transaction(["entries", "marks"], "readwrite", { durability: "strict" });
  const entries = tx.objectStore("entries");
  const ids: string[] = [];
  await settled(tx.done, [
    tx.objectStore("marks").put(version, "offered_to"),
    (async () => {
      for (const { id, text, aside } of await entries.index("aside").getAll()) {
        if (!aside || !isHopeful(aside)) continue;
        ids.push(id);
        await entries.put({ id, text, position: null, waiting: 1 });
      }
    })(),
  ]);
  return ids.sort();
}

/** What the kept sum did not see, or its end. */
async function outdate(tx: Tx, added: readonly string[], replaced: readonly string[]): Promise<void> {
  if (replaced.length > 0) {
    const sofar = Number((await tx.objectStore("marks").get("replaced")) ?? 0);
    await tx.objectStore("marks").put(sofar + replaced.length, "replaced");
  }
  if (added.length > A_FEW) await tx.objectStore("sums").delete("standing");
  else await Promise.all(added.map((id) => tx.objectStore("unsummed").put({ id })));
}
