// The sync of the open book: with its own holding's server alone, and each request says so.
import type { HoldingCard } from "../storage/holding-card.ts";
import type { BookStorage } from "../storage/port.ts";
import type { Shelf } from "../storage/shelf.ts";
import type { PairingAnswer } from "../sync/answers.ts";
import type { Sync, SyncState, SyncTools } from "../sync/loop.ts";

type Tools = Pick<SyncTools, "ask" | "now_ms" | "random" | "locks" | "visible">;

/** What a sync needs from the browser. */
interface Around extends Tools {
  readonly shelf: Shelf;
  readonly startSync: (tools: SyncTools) => Sync;
}

interface Told {
  readonly state: (state: SyncState) => void;
  /** The server takes this browser for another one than the card says. */
  readonly other: (answer: PairingAnswer) => void;
}

/** `isGreeted`: the server has just named this holding as its own. */
export function ownSync(
  around: Around,
  card: HoldingCard,
  storage: BookStorage,
  isGreeted: boolean,
  told: Told,
): Sync {
  const { now_ms, random, locks, visible } = around;
  let greeted = isGreeted;
  const sync = around.startSync({
    storage,
    ask: (request) => around.ask({ ...request, holding: card.id }),
    now_ms,
    random,
    locks,
    visible,
    mayPush: () => card.role !== "reader",
    greet: async () => {
      const wasGreeted = greeted;
      greeted = false;
      if (wasGreeted) return null;
      const greeting = await import("./greeting.ts").catch(() => null);
      return greeting ? greeting.greet(around, card, told.other) : { code: "unreachable" };
    },
  });
  let keptSkew_ms: number | null = null;
  sync.subscribe((state) => {
    told.state(state);
    if (state.skew_ms === null || Math.abs(state.skew_ms - (keptSkew_ms ?? Number.POSITIVE_INFINITY)) < 1000)
      return;
    keptSkew_ms = state.skew_ms;
    storage.keepSkew(state.skew_ms).catch(() => undefined); // the next round tells it again
  });
  return sync;
}
