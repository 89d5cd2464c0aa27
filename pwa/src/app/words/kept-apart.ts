// Batches from elsewhere that are kept apart.
import { plural } from "./everywhere.ts";

export const keptApart = {
  batch: (name: string, n: number, day: string) =>
    `${name}, ${plural(n, "young bird", "young birds")}: kept apart until ${day}.`,
  how: "See to your own birds first, then to these; wash hands and boots between them.",
} as const;
