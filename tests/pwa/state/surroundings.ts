import { desk } from "../../../pwa/src/state/desk.ts";
import { holdAll } from "../../../pwa/src/state/held.ts";
import * as keeping from "../../../pwa/src/state/keeping.ts";
import { type Surroundings, storageFault } from "../../../pwa/src/state/opening.ts";
import { recent, savingFault } from "../../../pwa/src/state/recording.ts";
import type { TabMessage } from "../../../pwa/src/state/tabs.ts";
import type { HoldingCard } from "../../../pwa/src/storage/holding-card.ts";
import { MemoryBook } from "../../../pwa/src/storage/memory.ts";
import type { Shelf } from "../../../pwa/src/storage/shelf.ts";
import { startSync } from "../../../pwa/src/sync/loop.ts";
import { serverAt } from "../../../pwa/src/sync/server.ts";
import { shore } from "../storage/shore.ts";

export const NOW_MS = Date.UTC(2026, 2, 8, 19, 40);

export class MemoryShelf implements Shelf {
  readonly #cards = new Map<string, HoldingCard>();
  #open: string | null = null;

  async open(): Promise<HoldingCard | null> {
    return this.#cards.get(this.#open ?? "") ?? null;
  }

  async cards(): Promise<HoldingCard[]> {
    return [...this.#cards.values()];
  }

  async put(card: HoldingCard): Promise<void> {
    this.#cards.set(card.id, card);
    this.#open = card.id;
  }

  async remove(holding: string): Promise<void> {
    this.#cards.delete(holding);
  }
}

/** A browser for a test: books and shelf in memory, a clock that stands, chance that repeats. */
export function browser(fetch_: typeof fetch = () => Promise.reject(new TypeError("no server"))) {
  const books = new Map<string, MemoryBook>();
  const told: TabMessage[] = [];
  const clock = { now_ms: NOW_MS };
  let chance = 1;
  const around: Surroundings = {
    shelf: new MemoryShelf(),
    bookOf: (holding) => {
      const book = books.get(holding) ?? new MemoryBook(holding);
      books.set(holding, book);
      return book;
    },
    shore: shore(),
    ask: serverAt(fetch_, () => clock.now_ms, 1000),
    askBriefly: serverAt(fetch_, () => clock.now_ms, 1000),
    startSync,
    now_ms: () => clock.now_ms,
    random: () => 0.5,
    randomBytes: (bytes) => {
      for (let i = 0; i < bytes.length; i += 1) {
        chance = (Math.imul(chance, 1103515245) + 12345) >>> 0;
        bytes[i] = chance >>> 16;
      }
    },
    zone: () => "Europe/Dublin",
    locks: null,
    visible: () => true,
    storageManager: undefined,
    reader: "this app",
    rest: () => Promise.resolve(),
    keeping: async () => keeping,
    tabs: { tell: (message) => void told.push(message), listen: () => undefined },
  };
  return { around, books, told, clock };
}

/** The app is gone: what was in memory only is lost, as when the phone kills the page. */
export async function killApp(): Promise<void> {
  await desk.value?.sync?.stop();
  desk.value = null;
  holdAll([], []);
  recent.value = [];
  savingFault.value = null;
  storageFault.value = null;
}
