import { computed, type ReadonlySignal } from "@preact/signals";
import { beganEmpty, held } from "./held.ts";
import { syncState } from "./opening.ts";
import { standing } from "./standing.ts";

/** Nothing set up yet, by this phone or by one that shares the book. */
export const isNewBook: ReadonlySignal<boolean> = computed(() => {
  const { heads, places, settings } = standing.value;
  return !heads.keeper?.length && places.size === 0 && settings.size === 0;
});

/**
 * How many entries came so far while the server's book is on its way to this phone for the first time, else null. Half
 * a book would say that no eggs are set, and asking to set one up would be wrong.
 */
export const firstReading: ReadonlySignal<number | null> = computed(() => {
  const state = syncState.value;
  const reads = state !== null && state.complete_ms === null && state.fault === null;
  return reads && (beganEmpty.value || isNewBook.value) ? held.value.n : null;
});
