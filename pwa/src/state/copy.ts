import { type Entry, parseEntry } from "../book/entries.ts";
import { canonical, type EnvelopeFault } from "../book/wire.ts";
import type { BookStorage } from "../storage/port.ts";
import { localDate } from "../trade/calendar.ts";
import { desk, openDesk } from "./desk.ts";
import { held, unsavedEntries } from "./held.ts";
import { standing } from "./standing.ts";

/** A save must end within the watchdog's time, however long the copy is. */
const AT_ONCE = 200;

/** A copy of a book as JSON lines, one entry a line: the form that every server and every phone reads. */
export interface BookCopy {
  readonly name: string;
  readonly text: string;
  readonly n: number;
}

/**
 * The open book, what is not saved yet included; bodies kept apart stand at the end. Where storage cannot even be
 * read any more, what the page still has in memory.
 */
export async function copyBook(now_ms: number): Promise<BookCopy> {
  const { storage, card } = openDesk();
  const inMemory = () => [...held.value.entries.values()].map((one) => canonical(one.entry)).sort();
  const lines = await linesOf(storage, unsavedEntries()).catch(inMemory);
  return copyFrom(lines, card.name, localDate(now_ms, standing.value.keeper.zone));
}

/** A book that lies beside the open one, opened for this and closed again. */
export async function copyOf(storage: BookStorage, holding: string, now_ms: number): Promise<BookCopy> {
  try {
    return copyFrom(await linesOf(storage, []), holding, localDate(now_ms, standing.value.keeper.zone));
  } finally {
    storage.close();
  }
}

async function linesOf(storage: BookStorage, unsaved: readonly Entry[]): Promise<string[]> {
  const rows = await storage.all();
  const lines = [...rows.map((row) => canonical(row.entry)), ...unsaved.map(canonical)];
  lines.push(...(await storage.apart()).map((one) => one.text));
  return lines;
}

export function copyFrom(lines: readonly string[], holding: string, day: string): BookCopy {
  const name = holding.replace(/[^\p{L}\p{N}]+/gu, "-").replace(/^-|-$/g, "") || "broodline";
  return { name: `${name}-${day}.jsonl`, text: lines.map((line) => `${line}\n`).join(""), n: lines.length };
}

/** A line of a copy that could not be read. Lines count from 1. */
export interface BadLine {
  readonly line: number;
  readonly message: string;
}

/** What a copy holds, before anything of it is taken in. */
export interface CopyFound {
  readonly entries: readonly Entry[];
  readonly bad: readonly BadLine[];
  /** Set where it seems to be of another holding's book; `name`: what its keeper calls that, or empty. */
  readonly other: { readonly name: string } | null;
  /** The book that it was held against, and goes into. */
  readonly into: BookStorage;
}

/** Reads a copy and holds it against the open book; bad lines are named. Takes nothing in. */
export async function lookInto(text: string): Promise<CopyFound> {
  const good: Entry[] = [];
  const bad: BadLine[] = [];
  for (const [at, line] of text.split("\n").entries()) {
    if (line.trim() === "") continue;
    const entry = readLine(line);
    if (entry instanceof Error) bad.push({ line: at + 1, message: entry.message });
    else good.push(entry);
  }
  const { storage } = openDesk();
  const here = [...(await storage.all()).map((row) => row.entry), ...unsavedEntries()];
  const other = areOfOneBook(good, here) ? null : { name: holdingIn(good) };
  return { entries: good, bad, other, into: storage };
}

/** Takes a copy into the book that it was held against: how many were in it. What is held already adds nothing. */
export async function takeIn({ entries, into }: CopyFound): Promise<number> {
  for (let from = 0; from < entries.length; from += AT_ONCE)
    await into.append(entries.slice(from, from + AT_ONCE));
  desk.value?.sync?.ask("saved");
  return entries.length;
}

/**
 * Two copies of a book share what its keeper wrote of the holding; where one has none of that, any entry. A bird's
 * entries travel with it, and alone make no book the same. A book without entries takes every copy: a phone begun anew.
 */
function areOfOneBook(copy: readonly Entry[], here: readonly Entry[]): boolean {
  if (copy.length === 0 || here.length === 0) return true;
  const isKeepers = (entry: Entry) => entry.kind === "keeper";
  const telling = copy.some(isKeepers) && here.some(isKeepers) ? isKeepers : () => true;
  const ids = new Set(here.filter(telling).map((entry) => entry.id));
  return copy.some((entry) => telling(entry) && ids.has(entry.id));
}

function holdingIn(copy: readonly Entry[]): string {
  const told = copy.filter((entry) => entry.kind === "keeper" && typeof entry.body.holding === "string");
  const latest = told.reduce<Entry | null>((last, one) => (last && last.id > one.id ? last : one), null);
  return latest ? String(latest.body.holding) : "";
}

function readLine(line: string): Entry | EnvelopeFault | SyntaxError {
  try {
    return parseEntry(JSON.parse(line));
  } catch (fault) {
    if (fault instanceof SyntaxError) return fault;
    throw fault;
  }
}
