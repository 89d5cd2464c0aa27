/** What is kept of a build, under which name, and when it goes. */

export interface PrecachedFile {
  readonly url: string;
  /** First 16 hex digits of the file's SHA-256; null where the name itself holds a hash. */
  readonly revision: string | null;
}

/** The parts of the browser that are used; handed in, so that tests need no worker. */
export interface Surroundings {
  readonly caches: CacheStorage;
  readonly fetch: (request: Request) => Promise<Response>;
  readonly subtle: Pick<SubtleCrypto, "digest">;
  readonly origin: string;
}

const PREFIX = "broodline-app-";

export function cacheName(build: string): string {
  return PREFIX + build;
}

/**
 * Fetches every file of the build into its own cache. Rejects as a whole if one is not what the build made: a
 * hotspot's page with status 200 must never become the app. Files whose names hold a hash are taken over from an
 * earlier build.
 */
export async function fillCache(
  around: Surroundings,
  build: string,
  files: readonly PrecachedFile[],
): Promise<void> {
  const cache = await around.caches.open(cacheName(build));
  await Promise.all(
    files.map(async (file) => {
      const url = new URL(file.url, around.origin).href;
      const known = file.revision === null ? await around.caches.match(url) : undefined;
      await cache.put(url, known ?? (await fetchFile(around, url, file)));
    }),
  );
}

/** Keeps this build and the one before, whose pages may still be open and need their files. */
export async function dropOldCaches(around: Pick<Surroundings, "caches">, build: string): Promise<void> {
  const others = (await around.caches.keys()).filter(
    (name) => name.startsWith(PREFIX) && name !== cacheName(build),
  );
  await Promise.all(others.slice(0, -1).map((name) => around.caches.delete(name)));
}

async function fetchFile(around: Surroundings, url: string, file: PrecachedFile): Promise<Response> {
  const request = new Request(url, {
    cache: file.revision === null ? "default" : "no-cache",
    credentials: "same-origin",
    redirect: "error",
  });
  const response = await around.fetch(request);
  if (!response.ok) throw new Error(`${file.url}: status ${response.status}`);
  const isPage = /^text\/html\b/.test(response.headers.get("Content-Type") ?? "");
  if (isPage && !file.url.endsWith(".html")) throw new Error(`${file.url}: a page came instead`);
  if (file.revision !== null && (await revisionOf(around, response.clone())) !== file.revision) {
    throw new Error(`${file.url}: not the file of this build`);
  }
  return response;
}

async function revisionOf(around: Surroundings, response: Response): Promise<string> {
  const digest = await around.subtle.digest("SHA-256", await response.arrayBuffer());
  return [...new Uint8Array(digest)]
    .map((byte) => byte.toString(16).padStart(2, "0"))
    .join("")
    .slice(0, 16);
}
