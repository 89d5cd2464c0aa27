// Copies of a book: saved, handed on, taken in again.
import { plural } from "./everywhere.ts";

export const copies = {
  save: "Save a copy",
  saved: (name: string) => `Saved as ${name}.`,
  send: "Send a copy",
  sent: (name: string) => `${name} was handed on.`,
  notRead: "This book cannot be read just now. Try again in a moment.",
  read: "Take a copy in",
  readHint:
    "Only a copy of this same book. What is known already adds nothing. A copy holds every entry; photos are saved by themselves.",
  taken: (n: number) => `${plural(n, "entry", "entries")} read from the copy.`,
  other: (name: string) =>
    `This seems to be the copy of another book${name ? `, ${name}` : ""}. Nothing of it was taken in.`,
  otherWhy:
    "Taken in, its birds and eggs would stand in this book on every phone, and no entry can be deleted.",
  takeOther: "Take it in all the same",
  leaveOther: "Leave it out",
  badLines: (lines: readonly number[]) =>
    `${plural(lines.length, "line", "lines")} could not be read: ${lines.slice(0, 9).join(", ")}${lines.length > 9 ? " and more" : ""}.`,
  notKept: "The phone could not save all of it. Try again once it saves.",
} as const;

export const rescue = (n: number) =>
  `${plural(n, "entry is", "entries are")} here and can be saved as a copy.`;

export const photoCopies = {
  save: "Save the photos",
  read: "Take photos in",
  hint: "Photos are too large for the copy of the book. Those on this phone are saved as one file, and taken in again from it or as pictures.",
  saved: (n: number, name: string) => `${plural(n, "photo", "photos")} saved as ${name}.`,
  noneHere: "No photo lies on this phone.",
  elsewhere: (n: number) =>
    `${plural(n, "photo", "photos")} of this book ${n === 1 ? "lies" : "lie"} on the server or another phone: save ${n === 1 ? "it" : "them"} there.`,
  taken: (n: number) => `${plural(n, "photo", "photos")} of this book taken in.`,
  strangers: (n: number) =>
    `${plural(n, "picture is", "pictures are")} of no entry in this book and left out: take the copy of the book in first.`,
  notRead: "The photos cannot be read just now. Try again in a moment.",
  notKept: "The phone could not save all of them. Free some space, then try again.",
} as const;
