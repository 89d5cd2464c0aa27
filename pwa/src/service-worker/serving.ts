import { cleared } from "../app/words/cleared.ts";
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

/**
 * The kept answer. Where the browser cleared the cache: the network's, and `missing` is told once a page, so that the
 * cache can be filled again; without a network, a page that says so.
 */
export async function serve(
  around: Surroundings,
  build: string,
  request: Request,
  serving: Exclude<Serving, "leave">,
  missing: () => void = () => undefined,
): Promise<Response> {
  const url = serving === "shell" ? SHELL : new URL(request.url).pathname;
  const cache = await around.caches.open(cacheName(build));
  // A page of the build before asks for files that only its own cache holds.
  const known = (await cache.match(url)) ?? (serving === "file" ? await around.caches.match(url) : undefined);
  if (known) return known;
  if (serving === "file") return around.fetch(request);
  try {
    const page = await around.fetch(request);
    missing();
    return page;
  } catch {
    return clearedPage();
  }
}

/** All that is left to say: plain, for styles were cleared with the rest. */
function clearedPage(): Response {
  const page = `<!doctype html><html lang="en"><meta charset="utf-8">
<meta name="viewport" content="width=device-width"><meta name="color-scheme" content="light dark">
<title>${cleared.app}</title><h1>${cleared.title}</h1><p>${cleared.remedy}</p><p><a href="">${cleared.again}</a></p>`;
  const headers = {
    "Content-Type": "text/html; charset=utf-8",
    "Content-Security-Policy": "default-src 'none'",
  };
  return new Response(page, { status: 503, headers });
}
