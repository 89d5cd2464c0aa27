import type { PictureStorage } from "../storage/pictures.ts";
import { picturesOf } from "../storage/pictures-indexed.ts";
import { type Sync, type SyncState, type SyncTools, startSync as startLoop } from "./loop.ts";
import { sendPictures } from "./picture-round.ts";

export const FIRST_PAUSE_MS = 15_000;
const LONGEST_PAUSE_MS = 300_000;

/**
 * The loop, and after each round that read the log to its end the pictures. They take no part in its state: a picture
 * that cannot be sent delays no entry and calls nothing unsaved. After a fault they wait longer and longer.
 */
export function startSync(
  tools: SyncTools,
  pictures: PictureStorage = picturesOf(tools.storage.holding),
): Sync {
  const { storage, now_ms } = tools;
  const sync = startLoop(tools);
  let isReset = false;
  let isStopped = false;
  let isSending = false;
  let failures = 0;
  let ended_ms = 0;
  let pause_ms = 0;
  let seen_ms: number | null = null;

  const stopWatching = storage.watch((change) => {
    if (change.kind === "reset") isReset = true;
  });

  /** A clock that was set back behind the last try does not make the pause longer. */
  function isTime(): boolean {
    const passed_ms = now_ms() - ended_ms;
    return passed_ms < 0 || passed_ms >= pause_ms;
  }

  async function send(): Promise<void> {
    isSending = true;
    const fault = await tryAll().catch(() => ({ code: "storage" }) as const);
    isSending = false;
    failures = fault ? failures + 1 : 0;
    ended_ms = now_ms();
    const asked_ms = fault?.code === "refused" ? (fault.retry_after_ms ?? 0) : 0;
    const grown_ms = Math.min(LONGEST_PAUSE_MS, FIRST_PAUSE_MS * 2 ** (failures - 1));
    pause_ms = fault ? Math.max(asked_ms, grown_ms) : 0;
  }

  async function tryAll() {
    if (isReset) {
      await pictures.forgetSent();
      isReset = false;
    }
    return sendPictures({ pictures, storage, ask: tools.ask, goOn: () => !isStopped });
  }

  sync.subscribe(({ busy, fault, complete_ms }: SyncState) => {
    if (busy || fault || complete_ms === seen_ms) return;
    seen_ms = complete_ms;
    if (!isSending && !isStopped && tools.mayPush() && isTime()) void send();
  });

  return {
    ...sync,
    stop: () => {
      isStopped = true;
      stopWatching();
      return sync.stop();
    },
  };
}
