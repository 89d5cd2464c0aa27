/** Where the figures of the tables come from. The server refuses a table with a figure that has no source. */
import table from "@tables/sources.json";

/** How far the source of a figure was read; "practice" is common practice without a source. */
export type Status = "seen" | "mirror" | "memory" | "derived" | "practice";

/** One figure. unit: as printed. source: a key of the sources. why: why this one was chosen where sources differ. */
export interface Cell<T> {
  readonly value: T;
  readonly unit: string;
  readonly source: string;
  readonly status: string;
  readonly why?: string;
}

/** Where a figure was read. */
export interface Source {
  readonly title: string;
  readonly who: string;
  readonly where: string;
}

const SOURCES = new Map<string, Source>(Object.entries(table.sources));

/** The source behind the key that cells name, or undefined where the tables hold none. */
export function sourceOf(key: string): Source | undefined {
  return SOURCES.get(key);
}
