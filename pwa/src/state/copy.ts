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

export async function copyOf(storage: BookStorage, holding: string, now_ms: number): Promise<BookCopy> {
  return copyFrom(await linesOf(storage, []), holding, localDate(now_ms, standing.value.keeper.zone));
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

export interface CopyRead {
  readonly n: number;
  readonly bad: readonly BadLine[];
}

/** Takes a copy into the open book. What is held already adds nothing; good lines go in, bad ones are named. */
export async function readCopy(text: string): Promise<CopyRead> {
  const good: Entry[] = [];
  const bad: BadLine[] = [];
  for (const [at, line] of text.split("\n").entries()) {
    if (line.trim() === "") continue;
    const entry = readLine(line);
    if (entry instanceof Error) bad.push({ line: at + 1, message: entry.message });
    else good.push(entry);
  }
  const { storage } = openDesk();
  for (let from = 0; from < good.length; from += AT_ONCE)
    await storage.append(good.slice(from, from + AT_ONCE));
  desk.value?.sync?.ask("saved");
  return { n: good.length, bad };
}

function readLine(line: string): Entry | EnvelopeFault | SyntaxError {
  try {
    return parseEntry(JSON.parse(line));
  } catch (fault) {
    if (fault instanceof SyntaxError) return fault;
    throw fault;
  }
}
