/** Where the figures of the tables come from. The server refuses a table with a figure that has no source. */
import table from "@tables/sources.json";

const TITLES = new Map(Object.entries(table.sources).map(([key, { title }]) => [key, title]));

/** The title behind the key that figures name, or undefined where the tables hold none. */
export function sourceTitle(key: string): string | undefined {
  return TITLES.get(key);
}
