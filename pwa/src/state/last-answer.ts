import { type Signal, signal } from "@preact/signals";
import { desk, openDesk } from "./desk.ts";

/** What only the server can work out, shown from its last answer with its date. */
export type LastAnswer<R> =
  | { readonly kind: "asking"; readonly report: R | null }
  | { readonly kind: "fresh"; readonly report: R }
  /** The server cannot be asked now; what it said before, if it ever did. */
  | { readonly kind: "away"; readonly report: R | null }
  | { readonly kind: "unpaired" };

export interface Questions<R> {
  readonly answer: Signal<LastAnswer<R>>;
  /** Shows the last answer at a path at once and asks for a new one. */
  readonly ask: (path: string) => Promise<void>;
}

/**
 * Answers of one sort. They are kept beside the book, one for each holding and path: losing them loses nothing.
 * parse throws where the answer is of another sort.
 */
export function lastAnswers<R>(parse: (value: unknown) => R): Questions<R> {
  const answer = signal<LastAnswer<R>>({ kind: "unpaired" });
  /** The question asked last: an answer to an earlier one, or about another book, comes too late. */
  let asked = "";

  function parsed(value: unknown): R | null {
    try {
      return parse(value);
    } catch {
      return null;
    }
  }

  async function ask(path: string): Promise<void> {
    const open = openDesk();
    const question = `${open.card.id} ${path}`;
    const isLate = () => asked !== question || desk.value?.card.id !== open.card.id;
    asked = question;
    if (!open.sync) {
      answer.value = { kind: "unpaired" };
      return;
    }
    const kept = await open.storage.answer(path).catch(() => null);
    const last = kept ? parsed(kept.value) : null;
    if (isLate()) return;
    answer.value = { kind: "asking", report: last };
    const said = await open.ask({ method: "GET", path, parse: (value) => value });
    if (isLate()) return;
    const report = said.kind === "ok" ? parsed(said.value) : null;
    if (said.kind !== "ok" || report === null) {
      answer.value = { kind: "away", report: last };
      return;
    }
    answer.value = { kind: "fresh", report };
    // As it came, so that a newer app reads it anew; where there is no room it is asked for again.
    await open.storage.keepAnswer(path, { value: said.value, got_ms: said.got_ms }).catch(() => undefined);
  }

  return { answer, ask };
}
