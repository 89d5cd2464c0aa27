// Copies of a book: saved, handed on, taken in again.
import { plural } from "./everywhere.ts";

export const copies = {
  save: "Save a copy",
  saved: (name: string) => `Saved as ${name}.`,
  send: "Send a copy",
  sent: (name: string) => `${name} was handed on.`,
  notRead: "This book cannot be read just now. Try again in a moment.",
  read: "Take a copy in",
  readHint: "Only a copy of this same book. What is known already adds nothing.",
  taken: (n: number) => `${plural(n, "entry", "entries")} read from the copy.`,
  badLines: (lines: readonly number[]) =>
    `${plural(lines.length, "line", "lines")} could not be read: ${lines.slice(0, 9).join(", ")}${lines.length > 9 ? " and more" : ""}.`,
  notKept: "The phone could not save all of it. Try again once it saves.",
} as const;

export const rescue = (n: number) =>
  `${plural(n, "entry is", "entries are")} here and can be saved as a copy.`;
