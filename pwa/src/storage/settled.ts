/** Waits for the transaction's end; the requests' own rejections are answered so that none stays unhandled. */
export async function settled(done: Promise<void>, requests: readonly Promise<unknown>[]): Promise<void> {
  const outcomes = await Promise.allSettled([done, ...requests]);
  for (const outcome of outcomes) {
    if (outcome.status === "rejected") throw outcome.reason ?? new DOMException("aborted", "AbortError");
  }
}
