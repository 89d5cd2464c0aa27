import { cacheName, type PrecachedFile, type Surroundings } from "./precache.ts";

export const SHELL = "/index.html";

/** Addresses that belong to the server alone: answers, papers, feeds, and the worker itself. */
const SERVERS_OWN = /^\/(api|calendar)\/|^\/healthz$|^\/sw\.js$/;

/**
 * How a request is served. shell: any place inside the app, from the page of this very build, so that page and
 * scripts always fit; file: a file of a build, kept first; leave: not ours, the worker does not touch it.
 */
export type Serving = "shell" | "file" | "leave";

export function servingOf(
  request: Pick<Request, "method" | "mode" | "url">,
  origin: string,
  files: readonly PrecachedFile[],
): Serving {
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== origin || SERVERS_OWN.test(url.pathname)) return "leave";
  if (request.mode === "navigate") return "shell";
  const isBuilt = url.pathname.startsWith("/assets/") || files.some((file) => file.url === url.pathname);
  return isBuilt ? "file" : "leave";
}

/** The kept answer; the network only where the browser cleared the cache. */
export async function serve(
  around: Surroundings,
  build: string,
  request: Request,
  serving: Exclude<Serving, "leave">,
): Promise<Response> {
  const url = serving === "shell" ? SHELL : new URL(request.url).pathname;
  const cache = await around.caches.open(cacheName(build));
  // A page of the build before asks for files that only its own cache holds.
  const known = (await cache.match(url)) ?? (serving === "file" ? await around.caches.match(url) : undefined);
  return known ?? around.fetch(request);
}
