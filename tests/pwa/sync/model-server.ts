import { createHash } from "node:crypto";
import { parseEntry } from "../../../pwa/src/book/entries.ts";
import { canonical } from "../../../pwa/src/book/wire.ts";

export interface Row {
  readonly position: number;
  readonly id: string;
  readonly text: string;
  readonly chain: string;
}

export interface Snapshot {
  readonly epoch: string;
  readonly rows: readonly Row[];
}

/** How the server may be wrong, to prove that the tests would notice. */
export type ServerMutant = "no history check" | "position check only";

const sha256 = (text: string) => createHash("sha256").update(text).digest("hex");
const START = "0".repeat(64);

/** The server's side of push, pull and me, in memory: as short as the contract allows. */
export class ModelServer {
  epoch = "epoch-0";
  rows: Row[] = [];
  holding = "home";
  paired = true;
  server_ms = 1_772_000_000_000;
  /** null: a server from before it told its version. */
  version: string | null = "1.0.0";
  readonly asked: { path: string; body: string | undefined }[] = [];
  readonly #mutant: ServerMutant | null;

  constructor(mutant: ServerMutant | null = null) {
    this.#mutant = mutant;
  }

  /** Bound, to be handed in as fetch. */
  readonly fetch: typeof fetch = async (input, init) => {
    const url = new URL(String(input), "http://model");
    this.asked.push({ path: url.pathname, body: init?.body as string | undefined });
    const meant = new Headers(init?.headers).get("Broodline-Holding");
    if (this.paired && meant !== null && meant !== this.holding) return refusal(409, "elsewhere");
    return this.answer(url, init?.body as string | undefined);
  };

  answer(url: URL, body: string | undefined): Response {
    if (!this.paired)
      return url.searchParams.has("strangers") ? json(200, { device: null }) : refusal(401, "unpaired");
    if (url.pathname === "/api/v1/push") return this.#push(body ?? "");
    if (url.pathname === "/api/v1/pull") return this.#pull(url.searchParams);
    if (url.pathname === "/api/v1/me") {
      return json(200, {
        device: "phone-a",
        role: "keeper",
        holding: { id: this.holding, name: "Gorse Bank" },
        demo: false,
      });
    }
    return refusal(404, "not_found");
  }

  texts(): Map<string, string> {
    return new Map(this.rows.map((row) => [row.id, row.text]));
  }

  snapshot(): Snapshot {
    return { epoch: this.epoch, rows: [...this.rows] };
  }

  /** A restore usually makes a new epoch; a file copied back by hand does not. */
  restore(from: Snapshot, epoch: string | null): void {
    this.epoch = epoch ?? from.epoch;
    this.rows = [...from.rows];
  }

  store(text: string): void {
    const id = (JSON.parse(text) as { id: string }).id;
    const last = this.rows.at(-1);
    // Gaps are normal in a real log: never infer a loss from them.
    const position = (last?.position ?? 0) + 1 + (Number.parseInt(sha256(id).slice(0, 1), 16) % 2);
    this.rows.push({ position, id, text, chain: sha256((last?.chain ?? START) + id + sha256(text)) });
  }

  #push(body: string): Response {
    if (body.length > 256 * 1024) return refusal(413, "too_large");
    const { entries } = JSON.parse(body) as { entries: unknown[] };
    if (entries.length > 200) return refusal(413, "too_large");
    if (entries.some((entry) => parseEntry(entry) instanceof Error)) return refusal(400, "envelope");
    const held = this.texts();
    const results = entries.map((entry) => {
      const text = canonical(entry);
      const { id } = entry as { id: string };
      const known = held.get(id);
      if (known !== undefined) return { id, status: known === text ? "duplicate" : "clash" };
      this.store(text);
      held.set(id, text);
      return { id, status: "stored", position: this.rows.at(-1)?.position };
    });
    return json(200, { epoch: this.epoch, server_ms: this.server_ms, results });
  }

  #pull(query: URLSearchParams): Response {
    const cursor = query.get("cursor");
    const [epoch, at, chain] = cursor?.split(".") ?? [this.epoch, "0", START];
    if (!this.#isOurs(epoch ?? "", Number(at), chain ?? "")) return refusal(409, "reset");
    const after = this.rows.filter((row) => row.position > Number(at));
    const page = after.slice(0, Number(query.get("limit")));
    const end = page.at(-1);
    return json(200, {
      entries: page.map((row) => ({ position: row.position, entry: JSON.parse(row.text) })),
      cursor: end ? `${this.epoch}.${end.position}.${end.chain}` : `${this.epoch}.${at}.${chain}`,
      more: after.length > page.length,
      server_ms: this.server_ms,
      ...(this.version === null ? {} : { version: this.version }),
    });
  }

  #isOurs(epoch: string, position: number, chain: string): boolean {
    if (this.#mutant === "no history check") return true;
    const row = this.rows.find((one) => one.position === position);
    if (this.#mutant === "position check only") return position === 0 || row !== undefined;
    return epoch === this.epoch && chain === (position === 0 ? START : row?.chain);
  }
}

export function json(status: number, value: unknown, headers: Record<string, string> = {}): Response {
  return new Response(JSON.stringify(value), {
    status,
    headers: { "Content-Type": "application/json", ...headers },
  });
}

export function refusal(status: number, code: string, headers: Record<string, string> = {}): Response {
  return json(status, { error: { code, message: `no: ${code}`, remedy: "try otherwise" } }, headers);
}
