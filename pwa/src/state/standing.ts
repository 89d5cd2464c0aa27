import { computed, type ReadonlySignal } from "@preact/signals";
import type { Entry } from "../book/entries.ts";
import { fold } from "../book/fold.ts";
import type { Standing } from "../book/standing.ts";
import { held } from "./held.ts";

/** Every entry of the open book, in no order. */
export const entries: ReadonlySignal<readonly Entry[]> = computed(() =>
  [...held.value.entries.values()].map((one) => one.entry),
);

/** What the book adds up to. A tap is in it at once, saved or not. */
export const standing: ReadonlySignal<Standing> = computed(() => fold(entries.value));
