// What the server said to a question that has no place in the book, in the words a screen shows.
import type { Answer } from "../sync/server.ts";

export type Told<T> =
  | { readonly kind: "ok"; readonly value: T }
  | { readonly kind: "refused"; readonly words: string }
  | { readonly kind: "away" };

export function toldBy<T>(answer: Answer<T>): Told<T> {
  if (answer.kind === "ok") return { kind: "ok", value: answer.value };
  if (answer.kind !== "refused") return { kind: "away" };
  return { kind: "refused", words: `${answer.refusal.message} ${answer.refusal.remedy}` };
}
