import type { DBSchema, IDBPDatabase } from "idb";
import { nameOf } from "./not-saved.ts";
import type { OpenAnswers } from "./open.ts";

const MOST_REOPENS = 3;

/**
 * Faults that say "this handle is dead", not "this write is wrong". WebKit cuts the connection of a page that
 * was in the background while the page lives on; every engine throws InvalidStateError on a closing handle.
 */
const DEAD_HANDLE = new Set(["InvalidStateError", "UnknownError", "TransactionInactiveError"]);

export interface DoorWarnings {
  readonly onBlocked?: () => void;
  readonly onOutdated?: () => void;
}

/** The one way to a database. Nobody outside keeps a handle, so a dead one cannot be used twice. */
export class Door<S extends DBSchema> {
  readonly #open: (answers: OpenAnswers) => Promise<IDBPDatabase<S>>;
  readonly #warnings: DoorWarnings;
  #handle: Promise<IDBPDatabase<S>> | null = null;

  constructor(open: (answers: OpenAnswers) => Promise<IDBPDatabase<S>>, warnings: DoorWarnings = {}) {
    this.#open = open;
    this.#warnings = warnings;
  }

  /**
   * Runs the work on a live handle. A dead handle is dropped and the whole work repeated on a new one, at most
   * three times: the work must therefore be idempotent and await nothing but its own transaction.
   */
  async withDb<T>(work: (db: IDBPDatabase<S>) => Promise<T>): Promise<T> {
    for (let reopens = 0; ; reopens += 1) {
      const handle = this.#handle ?? this.#reopen();
      try {
        return await work(await handle);
      } catch (fault) {
        const gone = this.#handle !== handle; // reported dead while the work ran: its abort may bear any name
        const dead = gone || DEAD_HANDLE.has(nameOf(fault));
        if (dead) this.#drop(handle);
        if (!dead || reopens >= MOST_REOPENS) throw fault;
      }
    }
  }

  close(): void {
    const handle = this.#handle;
    if (handle) this.#drop(handle);
  }

  #reopen(): Promise<IDBPDatabase<S>> {
    const handle = this.#open({
      onBlocked: () => this.#warnings.onBlocked?.(),
      onOutdated: () => this.#warnings.onOutdated?.(),
      onGone: () => this.#forget(handle),
    });
    this.#handle = handle;
    handle.catch(() => this.#forget(handle)); // a failed opening must not be asked again and again
    return handle;
  }

  #drop(handle: Promise<IDBPDatabase<S>>): void {
    this.#forget(handle);
    handle.then(
      (db) => db.close(),
      () => undefined, // it never opened; the fault was already given to the caller
    );
  }

  /** A late report about an old handle must not throw away a newer one. */
  #forget(handle: Promise<IDBPDatabase<S>>): void {
    if (this.#handle === handle) this.#handle = null;
  }
}
