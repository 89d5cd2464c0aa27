import { canonical, EnvelopeFault } from "../book/wire.ts";
import type { BookStorage, PlacedEntry } from "../storage/port.ts";
import { type PullAnswer, parsePullAnswer } from "./answers.ts";
import { CHAIN_START, chainNext, hashOf } from "./content-hash.ts";
import { faultOf, type SyncFault } from "./fault.ts";
import type { Pace } from "./pace.ts";
import type { Ask } from "./server.ts";

/**
 * end: this phone has read the whole log; reset: the server's history is another one. Where it is this holding's,
 * all places have to be cleared and everything held offered again before pulling from the start.
 */
export type PullOutcome =
  | {
      readonly kind: "end";
      readonly server: { readonly server_ms: number; readonly sent_ms: number; readonly got_ms: number };
      readonly version: string | null;
    }
  | { readonly kind: "reset" }
  | { readonly kind: "fault"; readonly fault: SyncFault };

/** Reads the log on from the cursor, page by page; each page is kept together with its cursor or not at all. */
export async function pull(storage: BookStorage, ask: Ask, pace: Pace): Promise<PullOutcome> {
  for (;;) {
    const cursor = await storage.cursor();
    const answer = await ask({
      method: "GET",
      path: `/api/v1/pull?${new URLSearchParams({ ...(cursor ? { cursor } : {}), limit: String(pace.now) })}`,
      parse: parsePullAnswer,
    });
    if (answer.kind !== "ok") {
      if (answer.kind === "unreachable" && answer.slow) pace.slower(pace.now);
      const fault = faultOf(answer);
      const isHistory = fault.code === "refused" && fault.status === 409 && cursor !== null;
      return isHistory ? { kind: "reset" } : { kind: "fault", fault };
    }
    pace.quick();
    const rows = await verifiedRows(answer.value, cursor);
    if (!rows) return { kind: "fault", fault: { code: "damaged" } };
    if (rows.length > 0 || answer.value.cursor !== cursor) {
      await storage.applyPage(rows, answer.value.cursor);
    }
    if (!answer.value.more) {
      const { sent_ms, got_ms } = answer;
      const { server_ms, version } = answer.value;
      return { kind: "end", server: { server_ms, sent_ms, got_ms }, version };
    }
    if (rows.length === 0) return { kind: "fault", fault: { code: "damaged" } }; // more, but nothing came
  }
}

interface Place {
  readonly epoch: string;
  readonly position: number;
  readonly chain: string;
}

/**
 * The page's rows as canonical text, or null where they do not lead from the old cursor to the new one: the
 * chain is worked out here from what arrived, so a lost, doubled or altered row is found before it is kept.
 */
async function verifiedRows(page: PullAnswer, cursor: string | null): Promise<PlacedEntry[] | null> {
  const end = placeOf(page.cursor);
  const start = cursor === null ? { epoch: end?.epoch, position: 0, chain: CHAIN_START } : placeOf(cursor);
  if (!end || !start || end.epoch !== start.epoch) return null;
  const rows: PlacedEntry[] = [];
  try {
    for (const { position, entry } of page.entries)
      rows.push({ id: entry.id, text: canonical(entry), position });
  } catch (fault) {
    if (fault instanceof EnvelopeFault) return null;
    throw fault;
  }
  const hashes = await Promise.all(rows.map((row) => hashOf(row.text)));
  let { position, chain } = start;
  for (const [i, row] of rows.entries()) {
    if (row.position <= position) return null;
    position = row.position;
    chain = await chainNext(chain, row.id, hashes[i] ?? "");
  }
  return position === end.position && chain === end.chain ? rows : null;
}

function placeOf(cursor: string): Place | null {
  const parts = /^([0-9a-z-]+)\.(\d+)\.([0-9a-f]{64})$/.exec(cursor);
  return parts ? { epoch: parts[1] ?? "", position: Number(parts[2]), chain: parts[3] ?? "" } : null;
}
