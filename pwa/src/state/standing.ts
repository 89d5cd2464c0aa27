import { computed, type ReadonlySignal } from "@preact/signals";
import type { Entry } from "../book/entries.ts";
import { fold } from "../book/fold.ts";
import type { Standing } from "../book/standing.ts";
import { type WrittenBook, written } from "./held.ts";
import { withTap } from "./tap.ts";

/** More at once are folded with the rest: working them in one by one would take longer. */
const MOST_AT_ONCE = 100;

/** Every entry of the open book that is in memory, in no order; see `isWhole`. */
export const entries: ReadonlySignal<readonly Entry[]> = computed(() => listed(written.value));

/** What the book adds up to. A tap is in it at once, saved or not. */
export const standing: ReadonlySignal<Standing> = computed(() => {
  last = added(last, written.value);
  return last.sum;
});

/** What was added up so far, so that a tap need not fold the whole book. `behind`: some of the news is not in it. */
interface Sum {
  readonly reading: number;
  readonly news: number;
  readonly sum: Standing;
  readonly behind: boolean;
}

let last: Sum | null = null;

function added(before: Sum | null, book: WrittenBook): Sum {
  const { reading, news, whole } = book;
  const now = { reading, news: news.length, behind: false };
  const known = before?.reading === reading ? before : null;
  if (!known?.behind) {
    const from = known?.sum ?? book.sum;
    const sum = from && worked(from, news.slice(known?.news ?? 0));
    if (sum) return { ...now, sum };
  }
  if (whole) return { ...now, sum: fold(listed(book)) };
  // Entries are still being read: then all of it is folded.
  return { ...now, sum: known?.sum ?? book.sum ?? before?.sum ?? fold([]), behind: true };
}

/** The entries worked into a standing one by one; null where only the fold can tell. */
export function worked(from: Standing, since: readonly Entry[]): Standing | null {
  if (since.length > MOST_AT_ONCE) return null;
  return since.reduce<Standing | null>((sum, entry) => sum && withTap(sum, entry), from);
}

function listed(book: WrittenBook): Entry[] {
  return [...book.entries.values()].map((one) => one.entry);
}
