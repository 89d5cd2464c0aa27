/** A long book's kept sum: taken up at a start, replaced by the fold of all entries, and kept anew when all is quiet. */
import { effect } from "@preact/signals";
import { foldInSteps } from "../book/fold.ts";
import { readAhead } from "../book/heads.ts";
import type { Standing } from "../book/standing.ts";
import type { BookStorage, KeptStart, StoredEntry } from "../storage/port.ts";
import { hashOf } from "../sync/content-hash.ts";
import { held, holdPage, holdWhole, isWhole, written } from "./held.ts";
import { packed, unpacked } from "./kept-sum.ts";
import { latestOf, type Reader } from "./reading.ts";
import { standing, worked } from "./standing.ts";

const PAGE = 500;
const RETRY_MS = 3000;
/** How long nothing may have come before what it all adds up to is kept for the next start. */
const QUIET_MS = 10_000;
/** Of some milliseconds each: longer than a save takes on a slow phone. */
const MOST_RESTS = 100;
/** A shorter book is read and folded before anybody looks. */
const LONG_ENOUGH = 1000;
/** So many entries are worked into a kept sum at the next start in no time. */
const FEW_ENOUGH = 50;

/** The standing that was kept, with what came after it; null where it is damaged or only a fold can tell. */
export async function summed({ sum, since }: KeptStart): Promise<Standing | null> {
  const earlier = (await hashOf(joined(sum.texts))) === sum.hash ? unpacked(sum.texts) : null;
  return (
    earlier &&
    worked(
      earlier,
      since.map((row) => row.entry),
    )
  );
}

/**
 * Reads and folds what is not in memory yet, and from then on keeps a sum after the first start of a long book and
 * whenever more came than the next start should work in. `unsummed`: as much came since the sum that lies in storage;
 * null where none fits.
 */
export async function goOn(
  storage: BookStorage,
  unsummed: number | null,
  around: Reader,
  isOver: AbortSignal,
): Promise<void> {
  await readOn(storage, around, isOver);
  if (isOver.aborted) return;
  const from = written.value.reading;
  let kept = unsummed !== null && unsummed <= FEW_ENOUGH ? { reading: from, news: 0 } : null;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const unwatch = effect(() => {
    const now = written.value;
    clearTimeout(timer);
    if (now.entries.size < LONG_ENOUGH) return;
    if (kept?.reading === now.reading && now.news.length - kept.news <= FEW_ENOUGH) return;
    const keep = async () => {
      const done = await keepSum(storage, around, isOver).catch(() => false);
      if (done) kept = { reading: now.reading, news: now.news.length };
      else if (!isOver.aborted) timer = setTimeout(() => void keep(), QUIET_MS);
    };
    timer = setTimeout(() => void keep(), QUIET_MS);
  });
  isOver.addEventListener("abort", () => {
    clearTimeout(timer);
    unwatch();
  });
}

/**
 * Between two steps of work that nobody waits for. Storage gives its entries to one at a time, so what is being saved
 * goes first; where it cannot be saved, the work goes on all the same.
 */
async function stepAside(rest: () => Promise<void>, isOver: AbortSignal): Promise<void> {
  await rest();
  for (let waited = 0; waited < MOST_RESTS; waited++) {
    if (held.value.unsaved.size === 0 || isOver.aborted) return;
    await rest();
  }
}

async function readOn(storage: BookStorage, { rest }: Reader, isOver: AbortSignal): Promise<void> {
  let after: string | null = null;
  while (!isOver.aborted && !isWhole.value) {
    await stepAside(rest, isOver);
    const rows: StoredEntry[] | null = await storage.page(after, PAGE).catch(() => null);
    if (isOver.aborted) return;
    if (rows === null) {
      await new Promise((done) => setTimeout(done, RETRY_MS));
      continue;
    }
    after = rows.at(-1)?.id ?? after;
    readAhead(holdPage(rows, rows.length < PAGE));
    if (rows.length < PAGE) await foldAll(rest, isOver);
  }
}

async function foldAll(rest: () => Promise<void>, isOver: AbortSignal): Promise<void> {
  while (!isOver.aborted && !isWhole.value) {
    const from = written.value;
    const steps = foldInSteps([...from.entries.values()].map((one) => one.entry));
    let step = steps.next();
    while (!step.done) {
      await stepAside(rest, isOver);
      step = steps.next();
    }
    if (!isOver.aborted) holdWhole(from, step.value);
  }
}

/** False where the moment is wrong: something is not durable yet, or storage holds more than the memory. */
async function keepSum(
  storage: BookStorage,
  { reader, rest }: Reader,
  isOver: AbortSignal,
): Promise<boolean> {
  const replaced = await storage.replaced();
  if (isOver.aborted || held.value.unsaved.size > 0) return false;
  const sum = standing.value;
  const all = [...held.value.entries.values()].map((one) => one.entry);
  const saw = new Set(all.map((entry) => entry.id));
  const texts: string[] = [];
  for (const text of packed(sum)) {
    texts.push(text);
    await rest();
    if (isOver.aborted) return false;
  }
  const hash = await hashOf(joined(texts));
  const kept = { reader, n: saw.size, replaced, latest: latestOf(all), texts, hash };
  return storage.keepSum(kept, (id) => saw.has(id));
}

const joined = (texts: readonly string[]) => texts.join("\n");
