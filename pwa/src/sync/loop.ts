import type { BookStorage } from "../storage/port.ts";
import type { SyncFault } from "./fault.ts";
import { ifAlone, type Locks } from "./lock.ts";
import { fullPace } from "./pace.ts";
import { type RoundOutcome, syncRound } from "./round.ts";
import type { Ask } from "./server.ts";

const AFTER_SAVE_MS = 2000;
/** Short enough that two phones at one tray see each other's counts. */
const IDLE_MS = 15_000;
const FIRST_RETRY_MS = 3000;
const LONGEST_RETRY_MS = 15_000;
/** Nothing but the keeper's own act helps against these, so asking again is only for the case that it happened. */
const SLOW_STATUS = new Set([401, 403, 426]);

export interface SyncState {
  readonly busy: boolean;
  readonly fault: SyncFault | null;
  /** When this phone last read the log to its end; null: not since the app was opened. */
  readonly complete_ms: number | null;
  readonly skew_ms: number | null;
}

export interface SyncTools {
  readonly storage: BookStorage;
  readonly ask: Ask;
  readonly now_ms: () => number;
  /** 0 up to 1. */
  readonly random: () => number;
  readonly locks: Locks;
  readonly visible: () => boolean;
  readonly mayPush: () => boolean;
  /**
   * Whether the server that answers now is this holding's, and whether this is still the open book: null, or why
   * not. Asked before the first round, after any answer but its yes, after a 401, and when the server's history is
   * another one.
   */
  readonly greet: () => Promise<SyncFault | null>;
}

export type Occasion = "start" | "saved" | "online" | "visible" | "keeper";

export interface Sync {
  /** Asks for a round soon. Returns at once. */
  ask(occasion: Occasion): void;
  state(): SyncState;
  subscribe(told: (state: SyncState) => void): () => void;
  /** Resolves when no round runs any more. */
  stop(): Promise<void>;
}

/** Runs rounds: after saves, on occasions, every IDLE_MS while visible, and after faults with growing pauses. */
export function startSync(tools: SyncTools): Sync {
  const told = new Set<(state: SyncState) => void>();
  const paces = fullPace();
  let state: SyncState = { busy: false, fault: null, complete_ms: null, skew_ms: null };
  let timer: ReturnType<typeof setTimeout> | undefined;
  let due_ms = Number.POSITIVE_INFINITY;
  let ended_ms = 0;
  let retryAfter_ms = 0;
  let failures = 0;
  let greeted = false;
  let askedMeanwhile = false;
  let stopped = false;
  let running = Promise.resolve();

  function show(change: Partial<SyncState>): void {
    state = { ...state, ...change };
    for (const tell of told) tell(state);
  }

  function schedule(at_ms: number): void {
    const now_ms = tools.now_ms();
    const isUnderWay = due_ms >= now_ms; // else the clock was set forward under a timer that runs on
    if (stopped || (isUnderWay && at_ms >= due_ms)) return;
    due_ms = at_ms;
    clearTimeout(timer);
    timer = setTimeout(
      () => {
        due_ms = Number.POSITIVE_INFINITY;
        if (state.busy) askedMeanwhile = true;
        else running = run();
      },
      Math.max(0, at_ms - now_ms),
    );
  }

  async function run(): Promise<void> {
    askedMeanwhile = false;
    show({ busy: true });
    const ran = await ifAlone(tools.locks, () => round()).catch(() => false);
    show({ busy: false });
    // Another tab at it may have looked before our last entries came: look again ourselves.
    if (!ran || askedMeanwhile) schedule(tools.now_ms() + Math.max(waitFor(), AFTER_SAVE_MS));
    else if (tools.visible()) schedule(tools.now_ms() + pause());
  }

  async function round(): Promise<void> {
    const outcome = await greetedRound();
    failures = outcome.fault ? failures + 1 : 0;
    ended_ms = tools.now_ms();
    retryAfter_ms = outcome.fault?.code === "refused" ? (outcome.fault.retry_after_ms ?? 0) : 0;
    show({
      fault: outcome.fault,
      ...(outcome.complete ? { complete_ms: tools.now_ms() } : {}),
      ...(outcome.skew_ms === null ? {} : { skew_ms: outcome.skew_ms }),
    });
  }

  async function greetedRound(): Promise<RoundOutcome> {
    const stranger = greeted ? null : await greet();
    if (stranger) return { complete: false, fault: stranger, skew_ms: null };
    const outcome = await syncRound({
      storage: tools.storage,
      ask: (request) =>
        stopped ? Promise.resolve({ kind: "unreachable", slow: false }) : tools.ask(request),
      paces,
      mayPush: tools.mayPush(),
      greet,
    });
    const { fault } = outcome;
    if (fault?.code === "elsewhere" || (fault?.code === "refused" && fault.status === 401)) greeted = false;
    return outcome;
  }

  /** Only a yes lets later rounds go without asking: after "elsewhere" or no answer the next one asks first. */
  async function greet(): Promise<SyncFault | null> {
    greeted = false;
    const stranger = await tools.greet();
    greeted = stranger === null;
    return stranger;
  }

  /** How long a busy server still wants to be left alone: nothing, once the clock was set back behind its answer. */
  function waitFor(): number {
    const passed_ms = tools.now_ms() - ended_ms;
    return passed_ms < 0 ? 0 : Math.max(0, retryAfter_ms - passed_ms);
  }

  /** Until the next round without an occasion. Jitter keeps phones that lost the same server apart. */
  function pause(): number {
    const { fault } = state;
    if (!fault) return IDLE_MS;
    if (fault.code === "refused" && SLOW_STATUS.has(fault.status)) return IDLE_MS;
    const longest_ms = Math.min(LONGEST_RETRY_MS, FIRST_RETRY_MS * 2 ** (failures - 1));
    return waitFor() + longest_ms * (0.5 + tools.random() / 2);
  }

  return {
    ask(occasion) {
      const soon_ms = occasion !== "saved" ? 0 : state.fault ? FIRST_RETRY_MS : AFTER_SAVE_MS;
      schedule(tools.now_ms() + Math.max(waitFor(), soon_ms));
    },
    state: () => state,
    subscribe(tell) {
      told.add(tell);
      return () => told.delete(tell);
    },
    async stop() {
      stopped = true;
      clearTimeout(timer);
      await running;
    },
  };
}
