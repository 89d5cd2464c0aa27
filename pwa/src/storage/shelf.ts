import { Door, type DoorWarnings } from "./door.ts";
import type { HoldingCard } from "./holding-card.ts";
import { openShelf } from "./open.ts";
import type { ShelfSchema } from "./schema.ts";

const WATCHDOG_MS = 3000;

/** The books on this phone, one for each holding, and which of them lies open. */
export interface Shelf {
  open(): Promise<HoldingCard | null>;
  cards(): Promise<HoldingCard[]>;
  /** Keeps the card; the book it names lies open from now on. */
  put(card: HoldingCard): Promise<void>;
  /** Forgets a card, never its book. */
  remove(holding: string): Promise<void>;
}

export class IndexedShelf implements Shelf {
  readonly #door: Door<ShelfSchema>;

  constructor(warnings: DoorWarnings = {}) {
    this.#door = new Door(openShelf, warnings);
  }

  open(): Promise<HoldingCard | null> {
    return this.#door.inTime(WATCHDOG_MS, async (db) => {
      const id = await db.get("marks", "open");
      return typeof id === "string" ? ((await db.get("holdings", id)) ?? null) : null;
    });
  }

  cards(): Promise<HoldingCard[]> {
    return this.#door.inTime(WATCHDOG_MS, (db) => db.getAll("holdings"));
  }

  put(card: HoldingCard): Promise<void> {
    return this.#door.inTime(WATCHDOG_MS, async (db) => {
      const tx = db.transaction(["holdings", "marks"], "readwrite", { durability: "strict" });
      await Promise.all([
        tx.objectStore("holdings").put(card),
        tx.objectStore("marks").put(card.id, "open"),
        tx.done,
      ]);
    });
  }

  remove(holding: string): Promise<void> {
    return this.#door.inTime(WATCHDOG_MS, (db) => db.delete("holdings", holding));
  }
}
