import { isTold, KEEP_ME, KEPT, SHOW, TAKE_OVER } from "../service-worker/messages.ts";
import { newerApp, readyOffline, whenSafe, workerFault } from "../state/newer-app.ts";
import { goTo } from "../state/whereabouts.ts";
import { isHalfTyped } from "./half-typed.ts";

const WORKER = "/sw.js";
const HOUR_MS = 3_600_000;
/** Where the first install was cut off, the app would not open in the hatch room: it is tried again, less often each time. */
const AGAIN_MS = 4_000;
const SELDOMEST_MS = 300_000;

/** The page's half of the service worker: registers it, says when a newer app waits, takes it on the keeper's yes. */
export async function bridgeUpdates(page: Window & typeof globalThis): Promise<void> {
  const container = page.navigator.serviceWorker;
  if (!container) return; // plain http on a home network: the app works while the server does
  let controlled = container.controller !== null;
  let asked = false;
  readyOffline.value = false;

  container.addEventListener("message", ({ data, ports }) => {
    if (isTold(data, KEPT)) readyOffline.value = true;
    if (!isTold(data, SHOW)) return;
    const goes = !isHalfTyped();
    ports[0]?.postMessage(goes);
    if (goes) goTo(String(data.path));
  });
  container.startMessages();
  /** A page that came while the worker took over belongs to none, and its later screens would not come offline. */
  const askToBeKept = async () => (await container.ready).active?.postMessage(KEEP_ME);

  container.addEventListener("controllerchange", () => {
    if (asked) reload(page);
    // Without our asking: the first worker claims this page, or another tab took the newer app.
    else if (controlled) newerApp.value = { needed: true, take: () => whenSafe(() => reload(page)) };
    controlled = true;
  });

  function offer(waiting: ServiceWorker): void {
    const take = () =>
      whenSafe(() => {
        asked = true;
        waiting.postMessage(TAKE_OVER);
      });
    newerApp.value = { needed: false, take };
  }

  const address = workerAddress(page);
  let pause_ms = AGAIN_MS;
  const again = () => {
    page.setTimeout(look, pause_ms);
    pause_ms = Math.min(2 * pause_ms, SELDOMEST_MS);
  };

  function heed(registration: ServiceWorkerRegistration): void {
    if (registration.waiting && controlled) offer(registration.waiting);
    const follow = () => {
      const installing = registration.installing;
      installing?.addEventListener("statechange", () => {
        if (installing.state === "installed" && container.controller) offer(installing);
        if (installing.state === "redundant" && !registration.active) again();
      });
    };
    follow();
    registration.addEventListener("updatefound", follow);
  }

  let heeded: ServiceWorkerRegistration | null = null;
  async function look(): Promise<void> {
    try {
      const registration = await container.register(address, { scope: "/", updateViaCache: "none" });
      // A registration whose only install failed is dropped by the browser; the next is another.
      if (registration !== heeded) heed(registration);
      else await registration.update();
      heeded = registration;
      workerFault.value = null;
    } catch (fault) {
      workerFault.value = String(fault); // "SecurityError: …" where the certificate is not trusted
      if (!container.controller) again(); // no server near; with a worker at hand the next look will do
    }
  }

  // Installed apps are frozen and woken for days without a navigation, so nobody else asks.
  page.addEventListener("pageshow", (event) => {
    if (event.persisted) void look();
  });
  page.document.addEventListener("visibilitychange", () => {
    if (page.document.visibilityState !== "visible") return;
    void look();
    if (!readyOffline.value) void askToBeKept();
  });
  page.setInterval(look, HOUR_MS);
  void askToBeKept();
  await look();
}

/** The part of Trusted Types that is used; the DOM's type library does not know it yet. */
interface TrustedTypes {
  createPolicy(
    name: string,
    rules: { createScriptURL: (address: string) => string },
  ): { createScriptURL(address: string): string };
}

/** The address as the page's security policy wants it: no other script address can be made by it. */
function workerAddress(page: Window & { readonly trustedTypes?: TrustedTypes }): string {
  const policy = page.trustedTypes?.createPolicy("broodline", {
    createScriptURL: (address) => {
      if (address !== WORKER) throw new TypeError(`no script may be loaded from ${address}`);
      return address;
    },
  });
  return policy ? policy.createScriptURL(WORKER) : WORKER;
}

function reload(page: Window): void {
  // Not reload(): some browsers then ask the old worker again.
  page.location.replace(page.location.href);
}
