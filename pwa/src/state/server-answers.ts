import { type ReadonlySignal, type Signal, signal } from "@preact/signals";
import type { KeptAnswer, Refusal } from "../storage/port.ts";
import { type Desk, desk } from "./desk.ts";

/** Why there is no newer answer. `refused` carries the server's words. */
export type NoAnswer =
  | { readonly kind: "unpaired" | "unreachable" | "not_ours" }
  | { readonly kind: "refused"; readonly refusal: Refusal };

/** The server's answer to a question, as far as this phone knows it; `old` says why it is not of just now. */
export type ServerAnswer =
  | { readonly kind: "asking" }
  | { readonly kind: "none"; readonly why: NoAnswer }
  | {
      readonly kind: "shown";
      readonly value: unknown;
      readonly got_ms: number;
      readonly old: NoAnswer | null;
    };

const answers = new Map<string, Signal<ServerAnswer>>();

/**
 * What the server says at a path such as "/api/v1/reports/season/2026": at once what it said last, then anew.
 * A screen calls `askServer` when it opens and after a sync, and reads this.
 */
export function serverAnswer(path: string): ReadonlySignal<ServerAnswer> {
  return at(path);
}

export async function askServer(path: string): Promise<void> {
  const open = desk.value;
  if (!open) return;
  const answer = at(path);
  const known = await open.storage.answer(path).catch(() => null);
  if (known && answer.value.kind !== "shown") answer.value = { kind: "shown", ...known, old: null };
  const why = open.sync ? await askAnew(open, path, answer) : ({ kind: "unpaired" } as const);
  if (why === null) return;
  answer.value = answer.value.kind === "shown" ? { ...answer.value, old: why } : { kind: "none", why };
}

async function askAnew(open: Desk, path: string, answer: Signal<ServerAnswer>): Promise<NoAnswer | null> {
  const got = await open.ask({ method: "GET", path, parse: (value) => value });
  if (got.kind === "refused") return { kind: "refused", refusal: got.refusal };
  if (got.kind !== "ok") return { kind: got.kind };
  const kept: KeptAnswer = { value: got.value, got_ms: got.got_ms };
  answer.value = { kind: "shown", ...kept, old: null };
  await open.storage.keepAnswer(path, kept).catch(() => undefined); // it can be asked for again
  return null;
}

/** One signal for each question and holding: another book's answers never show. */
function at(path: string): Signal<ServerAnswer> {
  const name = `${desk.value?.card.id ?? ""} ${path}`;
  let answer = answers.get(name);
  if (!answer) {
    answer = signal<ServerAnswer>({ kind: "asking" });
    answers.set(name, answer);
  }
  return answer;
}
