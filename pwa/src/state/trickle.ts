import type { StoredEntry } from "../storage/port.ts";

const PAUSE_MS = 1000;

/** Rows on their way into memory. */
export interface Trickle {
  add(rows: readonly StoredEntry[]): void;
  /** Whatever still waits goes in now. */
  flush(): void;
}

/**
 * Passes rows on at once, but at most once a second: a phone that reads a long log in would otherwise add the whole
 * book up anew for every page of it.
 */
export function trickle(pass: (rows: readonly StoredEntry[]) => void, now_ms: () => number): Trickle {
  let waiting: StoredEntry[] = [];
  let last_ms = Number.NEGATIVE_INFINITY;
  let timer: ReturnType<typeof setTimeout> | undefined;

  function flush(): void {
    clearTimeout(timer);
    timer = undefined;
    if (waiting.length === 0) return;
    const rows = waiting;
    waiting = [];
    last_ms = now_ms();
    pass(rows);
  }

  return {
    add(rows) {
      waiting.push(...rows);
      const wait_ms = last_ms + PAUSE_MS - now_ms();
      if (wait_ms <= 0 || wait_ms > PAUSE_MS) flush();
      else timer ??= setTimeout(flush, wait_ms);
    },
    flush,
  };
}
