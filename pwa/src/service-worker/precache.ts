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
  /** A signal that comes after so many milliseconds. */
  readonly limit: (ms: number) => AbortSignal;
}

/**
 * So long may one file take, from the first look for it until it is kept. Without an end an install that hangs stays
 * "installing" for good, and nobody tries it again.
 */
export const FILE_LIMIT_MS = 60_000;
/** Files fetched at once: more would share a slow line, and all of them run out of time. */
const AT_ONCE = 4;

const PREFIX = "broodline-app-";
/** Which build is at work, as the text of one answer; in a cache of its own, under no name of a file. */
const AT_WORK = "broodline-at-work";
const AT_WORK_URL = "/broodline-at-work";

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
  const left = [...files];
  const keepRest = async () => {
    for (let file = left.shift(); file !== undefined; file = left.shift()) {
      const isOver = around.limit(FILE_LIMIT_MS);
      await ended(keepFile(around, cache, file, isOver), isOver);
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, keepRest));
}

/** Fills the cache of this build again where the browser cleared some of it. Rejects as `fillCache` does. */
export async function completeCache(
  around: Surroundings,
  build: string,
  files: readonly PrecachedFile[],
): Promise<void> {
  const cache = await around.caches.open(cacheName(build));
  const held = new Set((await cache.keys()).map((request) => request.url));
  const isHere = (file: PrecachedFile) => held.has(new URL(file.url, around.origin).href);
  if (!files.every(isHere)) await fillCache(around, build, files);
}

/**
 * This build is at work from now on. Kept are its cache and that of the build at work before, whose pages may still be
 * open and need their files: not one of an install that failed, or that waited and was never at work. Where nobody
 * wrote down which that was (before this was written), all are kept once more.
 */
export async function dropOldCaches(around: Pick<Surroundings, "caches">, build: string): Promise<void> {
  const log = await around.caches.open(AT_WORK);
  const before = await (await log.match(AT_WORK_URL))?.text();
  await log.put(AT_WORK_URL, new Response(build));
  if (before === undefined) return;
  const kept = [cacheName(build), cacheName(before)];
  const old = (await around.caches.keys()).filter((name) => name.startsWith(PREFIX) && !kept.includes(name));
  await Promise.all(old.map((name) => around.caches.delete(name)));
}

async function keepFile(
  around: Surroundings,
  cache: Cache,
  file: PrecachedFile,
  isOver: AbortSignal,
): Promise<void> {
  const url = new URL(file.url, around.origin).href;
  const known = file.revision === null ? await around.caches.match(url) : undefined;
  await cache.put(url, known ?? (await fetchFile(around, url, file, isOver)));
}

/** The work's end; rejects with the signal's reason where that comes first, whatever the work waits for. */
function ended(work: Promise<void>, isOver: AbortSignal): Promise<void> {
  return new Promise((done, fail) => {
    isOver.addEventListener("abort", () => fail(isOver.reason), { once: true });
    work.then(done, fail);
  });
}

async function fetchFile(
  around: Surroundings,
  url: string,
  file: PrecachedFile,
  signal: AbortSignal,
): Promise<Response> {
  const request = new Request(url, {
    cache: file.revision === null ? "default" : "no-cache",
    credentials: "same-origin",
    redirect: "error",
    signal,
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
