import { signal } from "@preact/signals";
import { desk } from "./desk.ts";
import { unsavedEntries } from "./held.ts";

/**
 * A newer app waits. `take` puts it in place and loads the page anew; the keeper says when, never in the middle
 * of a tally. `needed` where another tab already runs the newer one and this page can save no more.
 */
export interface NewerApp {
  readonly needed: boolean;
  readonly take: () => void;
}

export const newerApp = signal<NewerApp | null>(null);
/**
 * Whether all files of the app are on this phone, so that it works from now on without a server; null where the browser
 * keeps none, for the address is a plain one.
 */
export const readyOffline = signal<boolean | null>(null);

/** Why the worker could not be registered, as the browser says it; null where it was. */
export const workerFault = signal<string | null>(null);

const LOOK_AGAIN_MS = 100;

/**
 * Does the work once no tap would be lost by leaving the page: each is durable or in the lifeboat, which a page that
 * is older than its book cannot do better than.
 */
export function whenSafe(work: () => void): void {
  const aboard = new Set(desk.value?.lifeboat.aboard().map((entry) => entry.id));
  if (unsavedEntries().every((entry) => aboard.has(entry.id))) work();
  else setTimeout(() => whenSafe(work), LOOK_AGAIN_MS);
}
