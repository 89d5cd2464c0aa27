import { computed, type ReadonlySignal, signal } from "@preact/signals";
import { correctionMs } from "../book/moments.ts";
import type { Refusal } from "../storage/port.ts";
import { desk } from "./desk.ts";
import { held } from "./held.ts";
import { otherBooks, storageFault, syncState } from "./opening.ts";
import { savingFault } from "./recording.ts";

/** What is only on this phone, counted from the entries themselves: how many, and when the oldest was made. */
export interface OnlyHere {
  readonly n: number;
  readonly oldest_ms: number | null;
}

export const onlyHere: ReadonlySignal<OnlyHere> = computed(() => {
  let oldest: string | null = null;
  for (const id of held.value.onlyHere.keys()) if (oldest === null || id < oldest) oldest = id;
  // By the id, not by `at`: the keeper may have said that the act was yesterday.
  const made_ms = oldest === null ? null : Number.parseInt(oldest.slice(0, 8) + oldest.slice(9, 13), 16);
  return { n: held.value.onlyHere.size, oldest_ms: made_ms };
});

/** Whether the keeper counts on reminders that do not come, as far as the server was asked. */
export const remindersFail = signal(false);

/** What is added to this phone's clock to tell the book's time. */
export const correction_ms: ReadonlySignal<number> = computed(() => {
  const told = syncState.value?.skew_ms ?? null;
  return correctionMs(told ?? desk.value?.skew_ms() ?? null);
});

/**
 * The plain states, always in sight. `only_here` counts what is durable on this phone; `saving` stands where all that
 * is not on the server is not durable yet either. Times are the book's. `complete_ms`: when the server's log was last read to its end.
 */
export type Connection =
  | { readonly kind: "only_here"; readonly n: number; readonly oldest_ms: number | null }
  | { readonly kind: "saving"; readonly n: number }
  | { readonly kind: "on_server"; readonly complete_ms: number | null }
  /** Nothing in the book, as far as this phone can know yet. */
  | { readonly kind: "new" };

export const connection: ReadonlySignal<Connection> = computed(() => {
  const here = onlyHere.value;
  const unsaved = held.value.unsaved.size;
  if (here.n > unsaved)
    return { kind: "only_here", n: here.n - unsaved, oldest_ms: inBookOrNull(here.oldest_ms) };
  if (unsaved > 0) return { kind: "saving", n: unsaved };
  const complete_ms = syncState.value?.complete_ms ?? null;
  if (held.value.n === 0 && complete_ms === null) return { kind: "new" };
  return { kind: "on_server", complete_ms: inBookOrNull(complete_ms) };
});

function inBookOrNull(at_ms: number | null): number | null {
  return at_ms === null ? null : at_ms + correction_ms.value;
}

/**
 * What the keeper should know beside the two states, the gravest first. `refused` carries the server's own
 * words; all others have theirs in the words file.
 */
export type Attention =
  | { readonly kind: "storage"; readonly code: NonNullable<typeof storageFault.value> }
  | { readonly kind: "not_saved"; readonly n: number; readonly code: NonNullable<typeof savingFault.value> }
  | { readonly kind: "unpaired" | "role" | "app_too_old" | "server_full" | "server_busy" }
  | { readonly kind: "not_ours" | "damaged" | "unreachable" }
  | { readonly kind: "refused"; readonly refusal: Refusal }
  | { readonly kind: "set_aside"; readonly id: string; readonly refusal: Refusal }
  | { readonly kind: "other_book"; readonly holding: string }
  /** This phone's clock is so far behind the server's (below zero: ahead of it). */
  | { readonly kind: "clock"; readonly behind_ms: number };

export const attention: ReadonlySignal<readonly Attention[]> = computed(() => {
  const found: Attention[] = [];
  if (storageFault.value) found.push({ kind: "storage", code: storageFault.value });
  const here = [...held.value.onlyHere.values()];
  const unsaved = held.value.unsaved.size;
  if (savingFault.value && unsaved > 0)
    found.push({ kind: "not_saved", n: unsaved, code: savingFault.value });
  const trouble = fromSync() ?? fromRole();
  if (trouble) found.push(trouble);
  for (const { entry, aside } of here) {
    if (aside) found.push({ kind: "set_aside", id: entry.id, refusal: aside });
  }
  for (const card of otherBooks.value) {
    // A book begun before pairing that its server did not take over: it would be forgotten unless we say so.
    if (card.paired_ms === null) found.push({ kind: "other_book", holding: card.id });
  }
  const behind_ms = correction_ms.value;
  if (behind_ms !== 0) found.push({ kind: "clock", behind_ms });
  return found;
});

const BY_STATUS: Readonly<
  Record<number, "unpaired" | "role" | "app_too_old" | "server_full" | "server_busy">
> = {
  401: "unpaired",
  403: "role",
  426: "app_too_old",
  429: "server_busy",
  503: "server_busy",
  507: "server_full",
};

function fromSync(): Attention | null {
  const fault = syncState.value?.fault;
  if (!fault || fault.code === "storage" || fault.code === "elsewhere") return null;
  if (fault.code !== "refused") return { kind: fault.code };
  const known = fault.refusal.code === "origin" ? undefined : BY_STATUS[fault.status];
  return known ? { kind: known } : { kind: "refused", refusal: fault.refusal };
}

/** A reader's phone never pushes, so no server says that what was written on it stays there. */
function fromRole(): Attention | null {
  return desk.value?.card.role === "reader" && onlyHere.value.n > 0 ? { kind: "role" } : null;
}
