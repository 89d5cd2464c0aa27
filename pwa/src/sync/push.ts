import type { BookStorage, Refusal, WaitingEntry } from "../storage/port.ts";
import { type PushAnswer, parsePushAnswer } from "./answers.ts";
import { faultOf, type SyncFault } from "./fault.ts";
import type { Pace } from "./pace.ts";
import type { Answer, Ask } from "./server.ts";

export const PROTOCOL = 1;
/** The server reads at most 256 KiB of request. */
export const MOST_BYTES = 256 * 1024;
const AROUND_BYTES = 64; // {"entries":[...],"v":1} and the slack of a byte count

export interface PushOutcome {
  readonly pushed: number;
  readonly fault: SyncFault | null;
}

/**
 * Offers everything that waits, batch by batch. An acknowledged entry still waits: it is "on the server" only
 * once the pull brings it back. A batch that is refused for its content is halved until the odd entry stands
 * alone; that one is set aside with the server's words, and delays no other.
 */
export async function push(storage: BookStorage, ask: Ask, pace: Pace): Promise<PushOutcome> {
  const queue = [...(await storage.waiting())];
  const halves: WaitingEntry[][] = [];
  let pushed = 0;
  while (halves.length > 0 || queue.length > 0) {
    const batch = halves.pop() ?? nextBatch(queue, pace.now);
    const answer = await offer(ask, batch);
    if (answer.kind === "ok") {
      pace.quick();
      pushed += batch.length;
      await heed(storage, answer.value);
      continue;
    }
    if (answer.kind === "refused" && isAboutContent(answer.status, answer.refusal)) {
      if (batch.length === 1) await storage.setAside(batch[0]?.id ?? "", answer.refusal);
      else halves.push(batch.slice(batch.length >> 1), batch.slice(0, batch.length >> 1));
      continue;
    }
    if (answer.kind === "unreachable" && answer.slow) pace.slower(batch.length);
    return { pushed, fault: faultOf(answer) };
  }
  return { pushed, fault: null };
}

/** Takes from the front of the queue what one request may carry: always at least one entry. */
export function nextBatch(queue: WaitingEntry[], most: number): WaitingEntry[] {
  const size = new TextEncoder();
  let bytes = AROUND_BYTES;
  let n = 0;
  for (const { text } of queue) {
    bytes += size.encode(text).length + 1;
    if (n > 0 && (n >= most || bytes >= MOST_BYTES)) break;
    n += 1;
  }
  return queue.splice(0, n);
}

function offer(ask: Ask, batch: readonly WaitingEntry[]): Promise<Answer<PushAnswer>> {
  return ask({
    method: "POST",
    path: "/api/v1/push",
    body: `{"entries":[${batch.map((entry) => entry.text).join(",")}],"v":${PROTOCOL}}`,
    parse: parsePushAnswer,
  });
}

/**
 * 400 about the host is about the address the app was opened at, and a server older than this app does not know its
 * protocol: then no entry is at fault, and all of them wait.
 */
function isAboutContent(status: number, refusal: Refusal): boolean {
  return status === 413 || (status === 400 && refusal.code !== "host" && !refusal.ofAll);
}

async function heed(storage: BookStorage, answer: PushAnswer): Promise<void> {
  for (const { id, status } of answer.results) {
    if (status === "clash" || status === "purged") await storage.setAside(id, WORDS[status]);
  }
}

const WORDS: Readonly<Record<"clash" | "purged", Refusal>> = {
  clash: {
    code: "clash",
    message: "The server holds another entry under this one's number.",
    remedy:
      "The server's entry counts. Yours is kept on this phone: save a copy, and write it again if needed.",
  },
  purged: {
    code: "purged",
    message: "This entry was erased on the server.",
    remedy: "Nothing to do. It is still on this phone.",
  },
};
