import type { Occasion, Sync, SyncState, SyncTools } from "./loop.ts";
import type { Ask } from "./server.ts";

/** A way to the server whose script comes after the first ones; while it could not be fetched, nobody is reached. */
export function askLater(load: () => Promise<Ask>): Ask {
  return async (request) => {
    const ask = await load().catch(() => null);
    return ask ? ask(request) : UNREACHABLE;
  };
}

export const UNREACHABLE = { kind: "unreachable", slow: false } as const;

type Load = () => Promise<(tools: SyncTools) => Sync>;

const NOT_YET: SyncState = { busy: false, fault: null, complete_ms: null, skew_ms: null };

/**
 * A sync whose script comes after the first ones: the app opens and records without it. What was asked for meanwhile
 * is asked for once it is here; where it could not be fetched, the next occasion fetches again.
 */
export function syncLater(tools: SyncTools, load: Load): Sync {
  const told = new Set<(state: SyncState) => void>();
  const asked = new Set<Occasion>();
  let state = NOT_YET;
  let sync: Sync | null = null;
  let coming = false;
  let stopped = false;

  function show(now: SyncState): void {
    state = now;
    for (const tell of told) tell(state);
  }

  async function begin(): Promise<void> {
    coming = true;
    try {
      const startSync = await load();
      if (stopped) return;
      sync = startSync(tools);
      sync.subscribe(show);
      for (const occasion of asked) sync.ask(occasion);
    } catch {
      coming = false;
      show({ ...state, fault: { code: "unreachable" } });
    }
  }

  return {
    ask(occasion) {
      if (sync) return sync.ask(occasion);
      asked.add(occasion);
      if (!coming) void begin();
    },
    state: () => state,
    subscribe(tell) {
      told.add(tell);
      return () => told.delete(tell);
    },
    async stop() {
      stopped = true;
      await sync?.stop();
    },
  };
}
