/** One name for the whole origin: a round of sync and a change of holding never run at the same time. */
const NAME = "broodline-sync";

/** The browser's locks; null where it has none. A killed tab's lock is let go by the browser. */
export type Locks = Pick<LockManager, "request"> | null;

/** Does the work unless another tab is at it; says whether it did. */
export async function ifAlone(locks: Locks, work: () => Promise<void>): Promise<boolean> {
  if (!locks) {
    await work();
    return true;
  }
  return locks.request(NAME, { ifAvailable: true }, async (lock) => {
    if (lock) await work();
    return lock !== null;
  });
}

/** Does the work once no other tab is at it. */
export async function inTurn<T>(locks: Locks, work: () => Promise<T>): Promise<T> {
  return locks ? await locks.request(NAME, work) : work();
}
