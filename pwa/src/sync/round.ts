import { notSaved } from "../storage/not-saved.ts";
import type { BookStorage } from "../storage/port.ts";
import type { SyncFault } from "./fault.ts";
import type { Paces } from "./pace.ts";
import { type PullOutcome, pull } from "./pull.ts";
import { push } from "./push.ts";
import type { Ask } from "./server.ts";

const MOST_RESETS = 3;

export interface RoundOutcome {
  /** The log was read to its end: every place this phone shows is true as of now. */
  readonly complete: boolean;
  readonly fault: SyncFault | null;
  /** The server's clock minus this phone's, where an answer was quick enough to tell. */
  readonly skew_ms: number | null;
}

export interface RoundTools {
  readonly storage: BookStorage;
  readonly ask: Ask;
  readonly paces: Paces;
  /** Readers pull only. */
  readonly mayPush: boolean;
  /**
   * Asked before anything is offered to a server with another history: a fault where it is not this holding's,
   * so that a book heals its own server and never flows into another one.
   */
  readonly greet: () => Promise<SyncFault | null>;
}

/** One exchange: read the log to its end, offer what waits, read it again. Never rejects; a fault loses nothing. */
export async function syncRound(tools: RoundTools): Promise<RoundOutcome> {
  try {
    return await exchange(tools);
  } catch (fault) {
    notSaved(fault);
    return { complete: false, fault: { code: "storage" }, skew_ms: null };
  }
}

/**
 * Reading comes first: it shows what an earlier round delivered although its answer was lost, and whether the
 * server's history is still the one we know.
 */
async function exchange({ storage, ask, paces, mayPush, greet }: RoundTools): Promise<RoundOutcome> {
  let pulled = await pull(storage, ask, paces.pull);
  for (let resets = 0; resets <= MOST_RESETS; resets += 1) {
    if (pulled.kind === "fault") return stopped(pulled.fault);
    if (pulled.kind === "reset") {
      const stranger = await greet();
      if (stranger) return stopped(stranger);
      await storage.resetPlaces(); // not before: a stranger's answer must not cost this book its places
    }
    const version = pulled.kind === "end" ? pulled.version : null;
    if (mayPush && version !== null) await storage.offerAgain(version);
    const pushed = mayPush ? await push(storage, ask, paces.push) : { pushed: 0, fault: null };
    if (pushed.fault && !isAboutPushOnly(pushed.fault)) return stopped(pushed.fault);
    // What was acknowledged counts as "on the server" only after it came back in this pull.
    if (pulled.kind === "reset" || pushed.pushed > 0) pulled = await pull(storage, ask, paces.pull);
    if (pulled.kind === "end") return { complete: true, fault: pushed.fault, skew_ms: skewOf(pulled) };
  }
  return stopped({ code: "damaged" });
}

/** A server that cannot take entries now (disk full, busy, no right to record) may still show its log. */
function isAboutPushOnly(fault: SyncFault): boolean {
  return fault.code === "refused" && fault.status !== 401 && fault.status !== 426;
}

function stopped(fault: SyncFault): RoundOutcome {
  return { complete: false, fault, skew_ms: null };
}

function skewOf({ server }: Extract<PullOutcome, { kind: "end" }>): number {
  return Math.round(server.server_ms - (server.sent_ms + server.got_ms) / 2);
}
