import { signal } from "@preact/signals";

/**
 * A newer app waits. `take` puts it in place and loads the page anew; the keeper says when, never in the middle
 * of a tally. `needed` where another tab already runs the newer one and this page can save no more.
 */
export interface NewerApp {
  readonly needed: boolean;
  readonly take: () => void;
}

export const newerApp = signal<NewerApp | null>(null);
/** The app works from now on without a server: its files are on this phone. */
export const readyOffline = signal(false);
