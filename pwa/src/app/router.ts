import { batch } from "@preact/signals";
import { type Go, path, query, steer } from "../state/whereabouts.ts";

/** Where an app without a wish opens. */
export const HOME = "/due";

/**
 * Keeps `path` and the address bar the same. Plain links inside the app are followed here; with a key held down,
 * a target or another origin they are the browser's own business.
 */
export function routeBy(page: Window): void {
  const show = () => {
    const { pathname, search } = page.location;
    batch(() => {
      path.value = pathname === "/" || pathname === "/index.html" ? HOME : pathname;
      query.value = new URLSearchParams(search);
    });
  };
  const go: Go = (to, how) => {
    if (to !== page.location.pathname + page.location.search) {
      page.history[how === "replace" ? "replaceState" : "pushState"](null, "", to);
    }
    show();
    page.scrollTo(0, 0);
  };
  steer(go);
  page.addEventListener("popstate", show);
  page.document.addEventListener("click", (event) => {
    const to = innerLink(event, page.location);
    if (to === null) return;
    event.preventDefault();
    go(to);
  });
  show();
}

/** Where a click leads inside the app; null where the click is the browser's. */
export function innerLink(event: MouseEvent, here: Pick<Location, "origin" | "pathname">): string | null {
  if (event.defaultPrevented || event.button !== 0) return null;
  if (event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return null;
  const link = event.target instanceof Element ? event.target.closest("a") : null;
  if (!link?.href || link.target || link.hasAttribute("download")) return null;
  const url = new URL(link.href);
  if (url.origin !== here.origin || url.pathname.startsWith("/api/")) return null;
  if (url.hash && url.pathname === here.pathname) return null;
  return url.pathname + url.search;
}
