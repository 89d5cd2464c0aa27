import { vi } from "vitest";
import { MemoryBook } from "../../../pwa/src/storage/memory.ts";
import type { SyncFault } from "../../../pwa/src/sync/fault.ts";
import { type SyncTools, startSync } from "../../../pwa/src/sync/loop.ts";
import type { Answer, Ask } from "../../../pwa/src/sync/server.ts";

export const EMPTY_PAGE = { entries: [], cursor: `e.0.${"0".repeat(64)}`, more: false, server_ms: 60_000 };
export const refused = (status: number, retry_after_ms: number | null = null): Answer<never> => ({
  kind: "refused",
  status,
  refusal: { code: "x", message: "", remedy: "" },
  retry_after_ms,
});
export const gone: Answer<never> = { kind: "unreachable", slow: false };

/** A loop whose rounds are told by their pulls; `answer` says what each pull brings. */
export function loop(change: Partial<SyncTools> = {}, storage = new MemoryBook("home")) {
  const pulls: number[] = [];
  const net: { answer: () => Promise<Answer<unknown>> | Answer<unknown> } = {
    answer: () => ({ kind: "ok", value: EMPTY_PAGE, sent_ms: Date.now(), got_ms: Date.now() }),
  };
  const ask = (async (request: { path: string }) => {
    if (!request.path.startsWith("/api/v1/pull")) return gone;
    pulls.push(Date.now());
    return net.answer();
  }) as unknown as Ask;
  const greet = vi.fn(async (): Promise<SyncFault | null> => null);
  const tools: SyncTools = {
    storage,
    ask,
    now_ms: () => Date.now(),
    random: () => 0.999,
    locks: null,
    visible: () => true,
    mayPush: () => true,
    greet,
    ...change,
  };
  return { pulls, net, greet, sync: startSync(tools), storage };
}
