import type { DBSchema, IDBPDatabase } from "idb";
import { NotSaved, nameOf, notSaved, within } from "./not-saved.ts";
import type { OpenAnswers } from "./open.ts";

const MOST_REOPENS = 3;

/**
 * Faults that say "this handle is dead", not "this write is wrong". WebKit cuts the connection of a page that
 * was in the background while the page lives on; every engine throws InvalidStateError on a closing handle.
 */
const DEAD_HANDLE = new Set(["InvalidStateError", "UnknownError", "TransactionInactiveError"]);

export interface DoorWarnings {
  readonly onOutdated?: () => void;
}

/** The one way to a database. Nobody outside keeps a handle, so a dead one cannot be used twice. */
export class Door<S extends DBSchema> {
  readonly #open: (answers: OpenAnswers) => Promise<IDBPDatabase<S>>;
  readonly #warnings: DoorWarnings;
  #handle: Promise<IDBPDatabase<S>> | null = null;
  #isBlocked = false;

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

  /** `withDb` under a watchdog: rejects with NotSaved, whatever went wrong. */
  async inTime<T>(limit_ms: number, work: (db: IDBPDatabase<S>) => Promise<T>): Promise<T> {
    try {
      return await within(limit_ms, this.withDb(work));
    } catch (fault) {
      const found = notSaved(fault);
      if (found.code !== "slow") throw found;
      this.close(); // the next try must not wait for a handle that never comes
      throw this.#isBlocked ? new NotSaved("blocked", fault) : found;
    }
  }

  /** An older tab holds the database and does not let go: every opening waits behind it. */
  get isBlocked(): boolean {
    return this.#isBlocked;
  }

  close(): void {
    const handle = this.#handle;
    if (handle) this.#drop(handle);
  }

  #reopen(): Promise<IDBPDatabase<S>> {
    const handle = this.#open({
      onBlocked: () => {
        this.#isBlocked = true;
      },
      onOutdated: () => this.#warnings.onOutdated?.(),
      onGone: () => this.#forget(handle),
    });
    this.#handle = handle;
    const letIn = () => {
      this.#isBlocked = false;
    };
    handle.then(letIn, () => {
      letIn();
      this.#forget(handle); // a failed opening must not be asked again and again
    });
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
