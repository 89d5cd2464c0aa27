import { signal } from "@preact/signals";

/** Whether the screen is kept on now. Not every browser can, and all let go when the page is hidden. */
export const awake = signal(false);

/** Whether this browser can keep a screen on at all; over plain http none can. */
export const canStayAwake = (): boolean => Boolean(globalThis.navigator?.wakeLock);

type Wakeful = Pick<WakeLock, "request"> | undefined;

/**
 * Keeps the screen on while a tally is open; returns the way to stop. The lock is taken again each time the page
 * becomes visible, because browsers release it on hiding.
 */
export function stayAwake(
  wakeLock: Wakeful = globalThis.navigator?.wakeLock,
  page: Pick<Document, "visibilityState" | "addEventListener" | "removeEventListener"> = document,
): () => void {
  let wanted = true;
  let sentinel: WakeLockSentinel | null = null;

  async function take(): Promise<void> {
    if (!wakeLock || page.visibilityState !== "visible") return;
    try {
      const taken = await wakeLock.request("screen");
      if (!wanted) {
        await taken.release();
        return;
      }
      sentinel = taken;
      awake.value = true;
      taken.addEventListener("release", () => {
        awake.value = false;
      });
    } catch {
      awake.value = false; // low battery, or not allowed: the tally goes on without
    }
  }

  const onChange = () => void take();
  page.addEventListener("visibilitychange", onChange);
  void take();
  return () => {
    wanted = false;
    page.removeEventListener("visibilitychange", onChange);
    sentinel?.release().catch(() => undefined);
    awake.value = false;
  };
}
