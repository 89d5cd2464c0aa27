import { createHash } from "node:crypto";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { MemoryBook } from "../../../pwa/src/storage/memory.ts";
import { MemoryPictures } from "../../../pwa/src/storage/pictures-memory.ts";
import type { SyncTools } from "../../../pwa/src/sync/loop.ts";
import { FIRST_PAUSE_MS, startSync } from "../../../pwa/src/sync/picture-loop.ts";
import { serverAt } from "../../../pwa/src/sync/server.ts";
import { writer } from "../storage/entries-of.ts";
import { json, ModelServer, refusal } from "./model-server.ts";

/** The server's side of pictures beside its log, in memory. */
class PictureServer extends ModelServer {
  readonly pictures = new Map<string, Uint8Array>();
  readonly puts: { sha256: string; type: string | null; at_ms: number }[] = [];
  answerPut: ((sha256: string) => Response | null | Promise<Response | null>) | null = null;

  readonly fetchAll: typeof fetch = async (input, init) => {
    const sha256 = /\/api\/v1\/photos\/(\w+)$/.exec(String(input))?.[1];
    if (sha256 === undefined) return this.fetch(input, init);
    const body = init?.body as Blob;
    this.puts.push({ sha256, type: body.type, at_ms: Date.now() });
    const other = await this.answerPut?.(sha256);
    if (other) return other;
    const bytes = new Uint8Array(await body.arrayBuffer());
    expect([init?.method, createHash("sha256").update(bytes).digest("hex")]).toEqual(["PUT", sha256]);
    this.pictures.set(sha256, bytes);
    return json(200, { sha256, status: "stored" });
  };
}

const picture = (name: string) => {
  const bytes = new TextEncoder().encode(`a picture of ${name}`);
  const sha256 = createHash("sha256").update(bytes).digest("hex");
  return { sha256, type: "image/jpeg", bytes: bytes.buffer as ArrayBuffer };
};
const [FIRST, SECOND] = [picture("the first pip"), picture("the brood")];

function phone(server: PictureServer, change: Partial<SyncTools> = {}) {
  const storage = new MemoryBook("home");
  const pictures = new MemoryPictures("home");
  const { entry } = writer("phone-a", () => Date.now(), 1);
  const tools: SyncTools = {
    storage,
    ask: serverAt(server.fetchAll, () => Date.now()),
    now_ms: () => Date.now(),
    random: () => 0.999,
    locks: null,
    visible: () => true,
    mayPush: () => true,
    greet: async () => null,
    ...change,
  };
  const sync = startSync(tools, pictures);
  return { storage, pictures, entry, sync };
}

const realTimeout = globalThis.setTimeout;
/** Hashes are worked out beside the clock of the test. */
const settled = async () => {
  for (let i = 0; i < 8; i += 1) await new Promise((done) => realTimeout(done, 1));
};
const STEP_MS = 5000;

async function later(ms: number): Promise<void> {
  for (let left_ms = ms; left_ms > 0; left_ms -= STEP_MS) {
    await vi.advanceTimersByTimeAsync(Math.min(STEP_MS, left_ms));
    await settled();
  }
}
const sent = (server: PictureServer) => server.puts.map((one) => one.sha256);

beforeEach(() => {
  vi.useFakeTimers({ now: 1_772_000_000_000 });
});
afterEach(() => {
  vi.useRealTimers();
});

describe("pictures", () => {
  it("go to the server after the entries, each once, and are told as sent", async () => {
    const server = new PictureServer();
    const a = phone(server);
    await a.storage.append([a.entry()]);
    await a.pictures.keep(FIRST);
    await a.pictures.keep(SECOND);
    a.sync.ask("start");
    await later(100);
    expect(sent(server)).toEqual([FIRST.sha256, SECOND.sha256]);
    expect(server.puts[0]?.type).toBe("image/jpeg");
    expect(server.rows).toHaveLength(1);
    expect((await a.pictures.way(FIRST.sha256))?.sent_epoch).toBe("epoch-0");
    await later(120_000);
    expect(server.puts).toHaveLength(2);
    await a.sync.stop();
  });

  it("are sent again to a server that was set back, with a new epoch or without one", async () => {
    for (const epoch of ["epoch-1", null]) {
      const server = new PictureServer();
      const a = phone(server);
      const before = server.snapshot();
      await a.storage.append([a.entry()]);
      await a.pictures.keep(FIRST);
      a.sync.ask("start");
      await later(100);
      server.restore(before, epoch);
      server.pictures.clear();
      await later(40_000);
      expect([...server.pictures.keys()]).toEqual([FIRST.sha256]);
      expect(server.rows).toHaveLength(1);
      await a.sync.stop();
    }
  });

  it("wait while an entry waits, also between two of them", async () => {
    const server = new PictureServer();
    const a = phone(server);
    await a.pictures.keep(FIRST);
    await a.pictures.keep(SECOND);
    server.answerPut = async () => {
      server.answerPut = null;
      await a.storage.append([a.entry()]);
      return null;
    };
    a.sync.ask("start");
    await later(100);
    expect(sent(server)).toEqual([FIRST.sha256]);
    a.sync.ask("saved");
    await later(2100);
    expect(server.rows).toHaveLength(1);
    expect(sent(server)).toEqual([FIRST.sha256, SECOND.sha256]);
    await a.sync.stop();
  });

  it("that meet a fault stay, wait longer and longer, and neither delay nor blame the entries", async () => {
    const server = new PictureServer();
    const a = phone(server);
    await a.pictures.keep(FIRST);
    await a.pictures.keep(SECOND);
    server.answerPut = () => Promise.reject(new TypeError("gone"));
    a.sync.ask("start");
    await later(200_000);
    const pauses = server.puts.slice(1).map((put, i) => put.at_ms - (server.puts[i]?.at_ms ?? 0));
    expect(pauses.slice(0, 3)).toEqual([FIRST_PAUSE_MS, 2 * FIRST_PAUSE_MS, 4 * FIRST_PAUSE_MS]);
    expect(new Set(sent(server))).toEqual(new Set([FIRST.sha256])); // one at a time
    expect(a.sync.state().fault).toBeNull();
    await a.storage.append([a.entry()]);
    a.sync.ask("saved");
    await later(2100);
    expect(server.rows).toHaveLength(1);
    server.answerPut = null;
    await later(300_000);
    expect(server.pictures.size).toBe(2);
    await a.sync.stop();
  });

  it("that the server will not take are set aside with its words, and hold up no other", async () => {
    for (const [status, code] of [
      [413, "too_large"],
      [400, "envelope"],
    ] as const) {
      const server = new PictureServer();
      const a = phone(server);
      await a.pictures.keep(FIRST);
      await a.pictures.keep(SECOND);
      server.answerPut = (sha256) => (sha256 === FIRST.sha256 ? refusal(status, code) : null);
      a.sync.ask("start");
      await later(60_000);
      expect(sent(server)).toEqual([FIRST.sha256, SECOND.sha256]);
      expect((await a.pictures.way(FIRST.sha256))?.refusal).toMatchObject({ code, message: `no: ${code}` });
      expect(await a.pictures.read(FIRST.sha256)).not.toBeNull();
      await a.sync.stop();
    }
  });

  it("wait where this phone is not let in, is only to read, or the server is too busy", async () => {
    for (const [status, code] of [
      [401, "unpaired"],
      [403, "role"],
      [400, "host"],
    ] as const) {
      const server = new PictureServer();
      const a = phone(server);
      await a.pictures.keep(FIRST);
      server.answerPut = () => refusal(status, code);
      a.sync.ask("start");
      await later(100);
      expect(await a.pictures.way(FIRST.sha256)).toMatchObject({ sent_epoch: null, refusal: null });
      await a.sync.stop();
    }
    const busy = new PictureServer();
    const b = phone(busy);
    await b.pictures.keep(FIRST);
    busy.answerPut = () => refusal(503, "busy", { "Retry-After": "90" });
    b.sync.ask("start");
    await later(89_000);
    expect(busy.puts).toHaveLength(1);
    await later(20_000);
    expect(busy.puts).toHaveLength(2);
    await b.sync.stop();
    const server = new PictureServer();
    const reader = phone(server, { mayPush: () => false });
    await reader.pictures.keep(FIRST);
    reader.sync.ask("start");
    await later(60_000);
    expect(server.puts).toEqual([]);
    await reader.sync.stop();
  });

  it("are not called sent by a page in the place of an answer, or by an answer about another one", async () => {
    for (const odd of [
      () => new Response("<h1>sign in</h1>", { headers: { "Content-Type": "text/html" } }),
      () => json(200, { sha256: SECOND.sha256, status: "stored" }),
    ]) {
      const server = new PictureServer();
      const a = phone(server);
      await a.pictures.keep(FIRST);
      server.answerPut = odd;
      a.sync.ask("start");
      await later(100);
      expect(await a.pictures.unsent("epoch-0")).toEqual([FIRST.sha256]);
      await a.sync.stop();
    }
  });

  it("of a book that was closed go nowhere any more", async () => {
    const server = new PictureServer();
    const a = phone(server);
    await a.pictures.keep(FIRST);
    await a.pictures.keep(SECOND);
    server.answerPut = async () => {
      await a.sync.stop();
      return null;
    };
    a.sync.ask("start");
    await later(60_000);
    expect(sent(server)).toEqual([FIRST.sha256]);
  });
});
