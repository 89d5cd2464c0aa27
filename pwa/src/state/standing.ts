import { computed, type ReadonlySignal } from "@preact/signals";
import type { Entry } from "../book/entries.ts";
import { fold } from "../book/fold.ts";
import type { Standing } from "../book/standing.ts";
import { type WrittenBook, written } from "./held.ts";
import { withTap } from "./tap.ts";

/** Every entry of the open book, in no order. */
export const entries: ReadonlySignal<readonly Entry[]> = computed(() => listed(written.value));

/** What the book adds up to. A tap is in it at once, saved or not. */
export const standing: ReadonlySignal<Standing> = computed(() => {
  const book = written.value;
  const sum = last && last.reading === book.reading ? tapped(last, book) : null;
  last = { reading: book.reading, taps: book.taps.length, sum: sum ?? fold(listed(book)) };
  return last.sum;
});

/** What was added up so far, so that a tap need not fold the whole book. */
interface Sum {
  readonly reading: number;
  readonly taps: number;
  readonly sum: Standing;
}

let last: Sum | null = null;

function tapped(before: Sum, book: WrittenBook): Standing | null {
  let sum: Standing | null = before.sum;
  for (const entry of book.taps.slice(before.taps)) sum = sum && withTap(sum, entry);
  return sum;
}

function listed(book: WrittenBook): Entry[] {
  return [...book.entries.values()].map((one) => one.entry);
}
