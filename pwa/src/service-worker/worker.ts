import { isTold, KEEP_ME, KEPT, SHOW, TAKE_OVER } from "./messages.ts";
import { noticeOf, pathOf } from "./notices.ts";
import { completeCache, dropOldCaches, fillCache, type Surroundings } from "./precache.ts";
import { renewSubscription } from "./renewal.ts";
import { serve, servingOf } from "./serving.ts";

declare const self: ServiceWorkerGlobalScope;

const around: Surroundings = {
  caches: self.caches,
  fetch: (request) => self.fetch(request),
  subtle: self.crypto.subtle,
  origin: self.location.origin,
  limit: (ms) => AbortSignal.timeout(ms),
};

self.addEventListener("install", (event) => {
  event.waitUntil(fillCache(around, BUILD_ID, PRECACHED_FILES));
});

self.addEventListener("activate", (event) => {
  const tidied = dropOldCaches(around, BUILD_ID).catch(() => undefined); // too much is kept, and that is all
  event.waitUntil(tidied.then(() => self.clients.claim()));
});

// A newer app waits until the keeper says so: changing it under an open page could lose what is half typed.
self.addEventListener("message", (event) => {
  if (isTold(event.data, TAKE_OVER)) event.waitUntil(self.skipWaiting());
  if (isTold(event.data, KEEP_ME)) event.waitUntil(keep(event.source).catch(() => undefined)); // it asks again
});

self.addEventListener("fetch", (event) => {
  const serving = servingOf(event.request, around.origin, PRECACHED_FILES);
  if (serving === "leave") return;
  // A newer build's files will not fit; then the worker of that build brings its own.
  const fillAgain = () =>
    event.waitUntil(fillCache(around, BUILD_ID, PRECACHED_FILES).catch(() => undefined));
  event.respondWith(serve(around, BUILD_ID, event.request, serving, fillAgain));
});

self.addEventListener("push", (event) => {
  const { title, options } = noticeOf(event.data?.text() ?? null, around.origin);
  event.waitUntil(self.registration.showNotification(title, options));
});

self.addEventListener("pushsubscriptionchange", (event) => {
  const { pushManager } = self.registration;
  const line = {
    fetch: (path: string, init?: RequestInit) => self.fetch(path, init),
    subscribe: pushManager.subscribe.bind(pushManager),
  };
  event.waitUntil(renewSubscription(line).catch(() => undefined)); // the app's next start says it again
});

self.addEventListener("notificationclick", (event) => {
  event.notification.close();
  event.waitUntil(open(pathOf(event.notification.data, around.origin)));
});

async function keep(page: ExtendableMessageEvent["source"]): Promise<void> {
  await self.clients.claim();
  await completeCache(around, BUILD_ID, PRECACHED_FILES);
  page?.postMessage(KEPT);
}

/** A page that is up answers at once; one that does not is loaded anew. */
const HEARD_MS = 1_000;

/** The page in the window that is open already, or in a new one. */
async function open(path: string): Promise<void> {
  const [client] = await self.clients.matchAll({ type: "window" });
  const went = client ? await wentThere(client, path) : false;
  if (client && went) return void (await client.focus().catch(() => undefined));
  // What stands half typed in the window stays there.
  const shown = went === null ? await client?.navigate(path).catch(() => null) : null;
  await (shown ? shown.focus() : self.clients.openWindow(path));
}

/** Whether the page shows the path by itself; null where it does not answer. */
function wentThere(client: WindowClient, path: string): Promise<boolean | null> {
  const { port1, port2 } = new MessageChannel();
  return new Promise((settle) => {
    const done = (went: boolean | null) => {
      port1.close();
      settle(went);
    };
    port1.onmessage = ({ data }) => done(data === true);
    self.setTimeout(() => done(null), HEARD_MS);
    client.postMessage({ ...SHOW, path }, [port2]);
  });
}
