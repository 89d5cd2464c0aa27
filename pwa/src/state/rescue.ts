import { booksHere, textsOf } from "../storage/rescue.ts";
import { localDate } from "../trade/calendar.ts";
import { type BookCopy, copyFrom } from "./copy.ts";
import { surroundings } from "./opening.ts";

/** Copies of the books in this browser, for when none can be opened. Empty where there is none to read. */
export async function rescuedCopies(): Promise<BookCopy[]> {
  const copies = (await booksHere().catch(() => [])).map(async (holding) =>
    copyFrom(await textsOf(holding), "", localDate(surroundings().now_ms(), surroundings().zone())),
  );
  const read = await Promise.allSettled(copies);
  return read.flatMap((one) => (one.status === "fulfilled" && one.value.n > 0 ? [one.value] : []));
}
