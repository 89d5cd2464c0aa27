import type { Refusal } from "../storage/port.ts";
import { inTurn } from "../sync/lock.ts";
import { pair, unpair } from "../sync/pairing.ts";
import { onlyHere } from "./connection.ts";
import { desk, openDesk } from "./desk.ts";
import { adopt, lay, type Surroundings, surroundings } from "./opening.ts";
import { forget, renew } from "./reminders.ts";

/** What came of a pairing: taken up, said no in the server's words, or nobody there. */
export type PairingOutcome =
  | { readonly kind: "paired" }
  | { readonly kind: "refused"; readonly refusal: Refusal }
  | { readonly kind: "unreachable" | "not_ours" };

/**
 * Pairs this phone by the code that a keeper's device or the server's terminal shows. No round of sync runs while
 * the sign-in changes hands, in any tab: an old book's entries must never be pushed with a new holding's.
 */
export async function pairPhone(
  code: string,
  name: string,
  around: Surroundings = surroundings(),
): Promise<PairingOutcome> {
  const before = desk.value;
  await before?.sync?.stop();
  const answer = await inTurn(around.locks, async () => {
    const answer = await pair(around.ask, code.trim(), name.trim(), before?.card ?? null);
    if (answer.kind === "ok") await adopt(around, answer.value);
    return answer;
  });
  if (answer.kind !== "ok" && before?.sync) await lay(around, before.card, "unknown");
  desk.value?.sync?.ask("start");
  if (answer.kind === "ok") {
    renew().catch(() => undefined); // tried again at the next start
    return { kind: "paired" };
  }
  if (answer.kind === "refused") return { kind: "refused", refusal: answer.refusal };
  return { kind: answer.kind };
}

/** What came of unpairing. `only_here`: so many entries would be lost with this phone, so nothing was asked. */
export type UnpairingOutcome =
  | { readonly kind: "unpaired" }
  | { readonly kind: "only_here"; readonly n: number }
  | { readonly kind: "refused"; readonly refusal: Refusal }
  | { readonly kind: "unreachable" | "not_ours" };

/** Takes the pairing back. The book stays on this phone, as one that is not paired. */
export async function unpairPhone(around: Surroundings = surroundings()): Promise<UnpairingOutcome> {
  const { n } = onlyHere.value;
  if (n > 0) return { kind: "only_here", n };
  const { card, sync } = openDesk();
  await sync?.stop();
  return inTurn(around.locks, async () => {
    const answer = await unpair(around.ask, card.device);
    const gone = answer.kind === "ok" || (answer.kind === "refused" && answer.status === 401);
    await lay(around, gone ? { ...card, paired_ms: null } : card, "unknown");
    if (gone) {
      forget();
      return { kind: "unpaired" };
    }
    return answer.kind === "refused" ? { kind: "refused", refusal: answer.refusal } : { kind: answer.kind };
  });
}
