import { MemoryBook } from "../../../pwa/src/storage/memory.ts";
import type { BookStorage } from "../../../pwa/src/storage/port.ts";
import { fullPace } from "../../../pwa/src/sync/pace.ts";
import { type RoundOutcome, syncRound } from "../../../pwa/src/sync/round.ts";
import { serverAt } from "../../../pwa/src/sync/server.ts";
import { writer } from "../storage/entries-of.ts";

/** A phone with a book, for tests of push and pull. */
export function phone(device: string, seed: number, storage: BookStorage = new MemoryBook("home")) {
  const { entry, ids } = writer(device, () => 1_772_000_000_000, seed);
  const paces = fullPace();
  const sync = (fetch_: typeof fetch, mayPush = true): Promise<RoundOutcome> =>
    syncRound({
      storage,
      ask: serverAt(fetch_, () => 1_772_000_000_000, 1000),
      paces,
      mayPush,
      greet: async () => null,
    });
  return { storage, entry, ids, paces, sync };
}
