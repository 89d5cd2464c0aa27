import { expect, it, vi } from "vitest";
import { awake, stayAwake } from "../../../pwa/src/state/awake.ts";

function page(visibilityState: DocumentVisibilityState = "visible") {
  const events = new EventTarget();
  return Object.assign(events, { visibilityState }) as unknown as Document & { visibilityState: string };
}

function locks() {
  const given: EventTarget[] = [];
  const request = async () => {
    const sentinel = Object.assign(new EventTarget(), {
      release: async () => void sentinel.dispatchEvent(new Event("release")),
    });
    given.push(sentinel);
    return sentinel as unknown as WakeLockSentinel;
  };
  return { given, request };
}

it("keeps the screen on, takes the lock again after the page was hidden, and lets go in the end", async () => {
  const { given, request } = locks();
  const here = page();
  const stop = stayAwake({ request }, here);
  await vi.waitFor(() => expect(awake.value).toBe(true));
  given[0]?.dispatchEvent(new Event("release")); // browsers let go when the page is hidden
  expect(awake.value).toBe(false);
  here.dispatchEvent(new Event("visibilitychange"));
  await vi.waitFor(() => expect(awake.value).toBe(true));
  stop();
  expect(awake.value).toBe(false);
  here.dispatchEvent(new Event("visibilitychange"));
  expect(given).toHaveLength(2);
});

it("goes on without where the browser has none or refuses", async () => {
  stayAwake(undefined, page())();
  const refused = stayAwake(
    { request: () => Promise.reject(new DOMException("low battery", "NotAllowedError")) },
    page(),
  );
  await Promise.resolve();
  expect(awake.value).toBe(false);
  refused();
});
