import { type DBSchema, type IDBPDatabase, openDB } from "idb";
import { Door } from "./door.ts";
import { NotSaved } from "./not-saved.ts";
import { lifecycle } from "./open.ts";
import { isUnsent, type Picture, type PictureStorage, type PictureWay } from "./pictures.ts";
import type { Refusal } from "./port.ts";
import { settled } from "./settled.ts";

/** A picture is up to a hundred times an entry's size: old phones take their time. */
const WATCHDOG_MS = 10_000;
const PICTURES_VERSION = 1;

/** Ways lie apart from the bytes, so that looking for what is to be sent reads no picture. */
interface PictureSchema extends DBSchema {
  pictures: { key: string; value: Picture };
  ways: { key: string; value: PictureWay };
}

/** Not "broodline:...": those are books. */
export function picturesName(holding: string): string {
  return `broodline-pictures:${holding}`;
}

const opened = new Map<string, IndexedPictures>();

/** One store for each holding in this page, so that the screen hears of what the exchange did. */
export function picturesOf(holding: string): PictureStorage {
  const known = opened.get(holding) ?? new IndexedPictures(holding);
  opened.set(holding, known);
  return known;
}

/** Pictures in a database of their own. Success is told on transaction complete and read-back, as for entries. */
export class IndexedPictures implements PictureStorage {
  readonly holding: string;
  readonly #door: Door<PictureSchema>;
  readonly #told = new Set<() => void>();

  constructor(holding: string) {
    this.holding = holding;
    this.#door = new Door((answers) =>
      openDB<PictureSchema>(picturesName(holding), PICTURES_VERSION, {
        upgrade(db, from) {
          if (from < 1) {
            db.createObjectStore("pictures", { keyPath: "sha256" });
            db.createObjectStore("ways", { keyPath: "sha256" });
          }
        },
        ...lifecycle<PictureSchema>(answers),
      }),
    );
  }

  async keep(picture: Picture): Promise<void> {
    const { sha256 } = picture;
    await this.#do(async (db) => {
      const tx = db.transaction(["pictures", "ways"], "readwrite", { durability: "strict" });
      const [pictures, ways] = [tx.objectStore("pictures"), tx.objectStore("ways")];
      const put = async () => {
        if (await ways.get(sha256)) return;
        const n = await ways.count();
        await Promise.all([pictures.put(picture), ways.put({ sha256, n, sent_epoch: null, refusal: null })]);
      };
      await settled(tx.done, [put()]);
      const held = await db.get("pictures", sha256);
      if (!held || !areEqual(held.bytes, picture.bytes)) throw new NotSaved("lost");
    });
    this.#tell();
  }

  async read(sha256: string): Promise<Picture | null> {
    return (await this.#do((db) => db.get("pictures", sha256))) ?? null;
  }

  async way(sha256: string): Promise<PictureWay | null> {
    return (await this.#do((db) => db.get("ways", sha256))) ?? null;
  }

  async unsent(epoch: string): Promise<string[]> {
    const ways = await this.#do((db) => db.getAll("ways"));
    return ways
      .filter((way) => isUnsent(way, epoch))
      .sort((a, b) => a.n - b.n)
      .map((way) => way.sha256);
  }

  markSent(sha256: string, epoch: string): Promise<void> {
    return this.#change((way) => way.sha256 === sha256, { sent_epoch: epoch, refusal: null });
  }

  refuse(sha256: string, refusal: Refusal): Promise<void> {
    return this.#change((way) => way.sha256 === sha256, { refusal });
  }

  forgetSent(): Promise<void> {
    return this.#change(() => true, { sent_epoch: null, refusal: null });
  }

  watch(told: () => void): () => void {
    this.#told.add(told);
    return () => this.#told.delete(told);
  }

  close(): void {
    this.#door.close();
  }

  async #change(which: (way: PictureWay) => boolean, change: Partial<PictureWay>): Promise<void> {
    await this.#do(async (db) => {
      const tx = db.transaction("ways", "readwrite", { durability: "strict" });
      const put = async () => {
        const ways = (await tx.store.getAll()).filter(which);
        await Promise.all(ways.map((way) => tx.store.put({ ...way, ...change })));
      };
      await settled(tx.done, [put()]);
    });
    this.#tell();
  }

  #do<T>(work: (db: IDBPDatabase<PictureSchema>) => Promise<T>): Promise<T> {
    return this.#door.inTime(WATCHDOG_MS, work);
  }

  #tell(): void {
    for (const told of this.#told) told();
  }
}

function areEqual(a: ArrayBuffer, b: ArrayBuffer): boolean {
  if (a.byteLength !== b.byteLength) return false;
  const [left, right] = [new Uint8Array(a), new Uint8Array(b)];
  return left.every((byte, at) => byte === right[at]);
}
