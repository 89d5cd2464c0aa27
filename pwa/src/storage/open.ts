import { type DBSchema, type IDBPDatabase, openDB } from "idb";
import {
  BOOK_VERSION,
  type BookSchema,
  bookName,
  SHELF_NAME,
  SHELF_VERSION,
  type ShelfSchema,
} from "./schema.ts";

/** What the app is told while a database is open or opening. */
export interface OpenAnswers {
  /** Another tab with an older app holds the database; ours opens when that tab lets go. */
  readonly onBlocked: () => void;
  /** A newer app wants to upgrade: this handle was closed, the page should reload. */
  readonly onOutdated: () => void;
  /** The handle is dead, whoever killed it: drop it. */
  readonly onGone: () => void;
}

export function openBook(holding: string, answers: OpenAnswers): Promise<IDBPDatabase<BookSchema>> {
  return openDB<BookSchema>(bookName(holding), BOOK_VERSION, {
    upgrade(db, from, _to, tx) {
      if (from < 1) {
        db.createObjectStore("entries", { keyPath: "id" }).createIndex("waiting", "waiting");
        db.createObjectStore("apart", { keyPath: ["id", "text"] });
        db.createObjectStore("marks");
        db.createObjectStore("answers");
      }
      if (from < 2) {
        db.createObjectStore("sums");
        db.createObjectStore("unsummed", { keyPath: "id" });
        tx.objectStore("entries").createIndex("aside", "aside.code");
      }
    },
    ...lifecycle<BookSchema>(answers),
  });
}

export function openShelf(answers: OpenAnswers): Promise<IDBPDatabase<ShelfSchema>> {
  return openDB<ShelfSchema>(SHELF_NAME, SHELF_VERSION, {
    upgrade(db, from) {
      if (from < 1) {
        db.createObjectStore("holdings", { keyPath: "id" });
        db.createObjectStore("marks");
      }
    },
    ...lifecycle<ShelfSchema>(answers),
  });
}

export function lifecycle<S extends DBSchema>(answers: OpenAnswers) {
  return {
    blocked: () => answers.onBlocked(),
    blocking: (_own: number, _wanted: number | null, event: IDBVersionChangeEvent) => {
      // Never stand in a newer tab's way: an open handle would block its upgrade for good.
      (event.target as unknown as IDBPDatabase<S>).close();
      answers.onGone();
      answers.onOutdated();
    },
    terminated: () => answers.onGone(),
  };
}
