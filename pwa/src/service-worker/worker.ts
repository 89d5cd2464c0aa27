declare const self: ServiceWorkerGlobalScope;

const CACHE_NAME = `broodline-${BUILD_ID}`;

self.addEventListener("install", (event) => {
  const addresses = PRECACHED_FILES.map((file) => file.url);
  event.waitUntil(caches.open(CACHE_NAME).then((cache) => cache.addAll(addresses)));
});

export {};
