import type { Entry } from "../book/entries.ts";
import { canonical } from "../book/wire.ts";
import type { BookStorage } from "./port.ts";

const PREFIX = "broodline.lifeboat";

/**
 * The last resort for entries that IndexedDB would not take: localStorage is another store, written at once.
 * One key an entry, so that two tabs never overwrite each other. `shore` is null where the browser has none.
 */
export class Lifeboat {
  readonly #shore: Storage | null;
  readonly #holding: string;

  constructor(shore: Storage | null, holding: string) {
    this.#shore = shore;
    this.#holding = holding;
  }

  /** False where localStorage refuses too: then the entry lives on the screen only. */
  take(entry: Entry): boolean {
    if (!this.#shore) return false;
    try {
      this.#shore.setItem(this.#key(entry.id), canonical(entry));
      return true;
    } catch {
      return false;
    }
  }

  /** The entry is in the book now. */
  release(id: string): void {
    try {
      this.#shore?.removeItem(this.#key(id));
    } catch {
      // it will be landed again at the next start, which changes nothing
    }
  }

  aboard(): Entry[] {
    try {
      return Object.keys(this.#shore ?? {})
        .filter((key) => key.startsWith(this.#key("")))
        .sort()
        .flatMap((key) => this.#passenger(key));
    } catch {
      return []; // a browser that allows no localStorage took nobody aboard either
    }
  }

  /** Brings everybody ashore: a seat is given up only after its entry was saved. Rejects with NotSaved. */
  async land(storage: BookStorage): Promise<number> {
    const entries = this.aboard();
    if (entries.length === 0) return 0;
    await storage.append(entries);
    for (const entry of entries) this.release(entry.id);
    return entries.length;
  }

  #passenger(key: string): Entry[] {
    try {
      return [JSON.parse(this.#shore?.getItem(key) ?? "") as Entry];
    } catch {
      return []; // half written when the phone died; it stays where it is
    }
  }

  #key(id: string): string {
    return `${PREFIX}.${this.#holding}.${id}`;
  }
}
