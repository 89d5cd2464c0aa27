/** What a page tells a worker, and what the worker answers. */
export interface Told {
  readonly kind: "take_over" | "keep_me" | "kept" | "show";
}

/** To the waiting worker: the keeper said yes to the newer app. */
export const TAKE_OVER: Told = { kind: "take_over" };
/** To the active worker: serve this page too, which may have come while it took over; say when all files are here. */
export const KEEP_ME: Told = { kind: "keep_me" };
/** To the page: it is served, and every file of the app is on this phone. */
export const KEPT: Told = { kind: "kept" };

/** To the page, with the path of a notice that was tapped; it answers on the port that comes along,
 * whether it went there: not while something stands half typed. */
export const SHOW: Told = { kind: "show" };

export function isTold(value: unknown, told: Told): boolean {
  return typeof value === "object" && value !== null && "kind" in value && value.kind === told.kind;
}
