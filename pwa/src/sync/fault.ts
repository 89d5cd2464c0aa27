import type { Refusal } from "../storage/port.ts";
import type { Answer } from "./server.ts";

/**
 * Why a round of sync stopped. Nothing is lost by any of them; recording goes on.
 * unreachable: no answer; not_ours: another machine answered (hotspot, error page); damaged: the server's
 * answer does not add up with its own chain; storage: this phone could not keep what came; elsewhere: the server
 * is another holding's, or another book was opened meanwhile;
 * refused: the server said no, with its words (unpaired, role, protocol, busy, disk_full, ...).
 */
export type SyncFault =
  | { readonly code: "unreachable" | "not_ours" | "damaged" | "storage" | "elsewhere" }
  | {
      readonly code: "refused";
      readonly status: number;
      readonly refusal: Refusal;
      readonly retry_after_ms: number | null;
    };

/** The fault in an answer that is not ok. */
export function faultOf(answer: Exclude<Answer<unknown>, { kind: "ok" }>): SyncFault {
  if (answer.kind === "refused") {
    const { status, refusal, retry_after_ms } = answer;
    if (refusal.code === "elsewhere") return { code: "elsewhere" };
    return { code: "refused", status, refusal, retry_after_ms };
  }
  return { code: answer.kind };
}
