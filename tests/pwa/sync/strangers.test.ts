// Whom a phone talks to: its own holding's server, and never another one's.
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import type { SyncFault } from "../../../pwa/src/sync/fault.ts";
import { syncRound } from "../../../pwa/src/sync/round.ts";
import { type Answer, serverAt } from "../../../pwa/src/sync/server.ts";
import { EMPTY_PAGE, loop, refused } from "./loops.ts";
import { ModelServer } from "./model-server.ts";
import { phone } from "./phone.ts";

const positions = async (of: ReturnType<typeof phone>) => (await of.storage.all()).map((one) => one.position);

describe("a round", () => {
  it("asks who the server is before it offers a book to another history, and offers nothing to a stranger", async () => {
    const server = new ModelServer();
    const a = phone("a", 1);
    await a.storage.append([a.entry()]);
    await a.sync(server.fetch);
    const other = new ModelServer();
    other.epoch = "another";
    const outcome = await syncRound({
      storage: a.storage,
      ask: serverAt(other.fetch, () => 0),
      paces: a.paces,
      mayPush: true,
      greet: async () => ({ code: "elsewhere" }),
    });
    expect(outcome.fault).toEqual({ code: "elsewhere" });
    expect(other.rows).toEqual([]);
    expect(await positions(a)).not.toContain(null); // and keeps its places: its own server knows them
  });

  it("is refused whole by another holding's server, even where nothing was read or asked yet", async () => {
    const other = new ModelServer();
    other.holding = "another";
    const b = phone("b", 99);
    await b.storage.append([b.entry()]);
    await b.sync(other.fetch); // its own phone: what it holds must not reach ours
    const a = phone("a", 1);
    await a.storage.append([a.entry()]);
    const outcome = await syncRound({
      storage: a.storage,
      ask: (request) => serverAt(other.fetch, () => 0)({ ...request, holding: "home" }),
      paces: a.paces,
      mayPush: true,
      greet: async () => null,
    });
    expect(outcome).toMatchObject({ complete: false, fault: { code: "elsewhere" } });
    expect([other.rows.length, await positions(a)]).toEqual([1, [null]]);
  });
});

describe("the loop", () => {
  const later = (ms: number) => vi.advanceTimersByTimeAsync(ms);
  beforeEach(() => {
    vi.useFakeTimers({ now: 0 });
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  it("asks for the server's name before the first round, and not again", async () => {
    const { greet, pulls, sync } = loop();
    sync.ask("start");
    await later(30_000);
    expect([greet.mock.calls.length, pulls.length]).toEqual([1, 3]);
  });

  it("offers and reads nothing while another holding answers", async () => {
    const greet = vi.fn(async (): Promise<SyncFault | null> => ({ code: "elsewhere" }));
    const { pulls, sync } = loop({ greet });
    sync.ask("start");
    await later(10_000);
    expect(pulls).toEqual([]);
    expect(sync.state().fault).toEqual({ code: "elsewhere" });
  });

  it("asks for the name again after the pairing was refused", async () => {
    const { greet, net, sync } = loop();
    net.answer = () => refused(401);
    sync.ask("start");
    await later(0);
    sync.ask("keeper");
    await later(0);
    expect(greet).toHaveBeenCalledTimes(2);
  });

  it("asks for the name before every round, after another history or a no, until it was the right one", async () => {
    for (const [status, code] of [
      [409, "reset"],
      [409, "elsewhere"],
    ] as const) {
      const { greet, net, pulls, sync, storage } = loop();
      await storage.applyPage([], EMPTY_PAGE.cursor);
      sync.ask("start");
      await later(0);
      const again = () => {
        sync.ask("keeper");
        return later(0);
      };
      net.answer = () =>
        ({ ...refused(status), refusal: { code, message: "", remedy: "" } }) as Answer<never>;
      greet.mockResolvedValue({ code: "elsewhere" });
      await again();
      expect([pulls.length, sync.state().fault]).toEqual([2, { code: "elsewhere" }]);
      net.answer = () => ({ kind: "ok", value: EMPTY_PAGE, sent_ms: 0, got_ms: 0 });
      for (const answer of [{ code: "elsewhere" }, { code: "unreachable" }] as const) {
        greet.mockResolvedValue(answer);
        await again();
        expect([pulls.length, sync.state().fault]).toEqual([2, answer]); // nothing of that server was read
      }
      expect(await storage.cursor()).toBe(EMPTY_PAGE.cursor);
      greet.mockResolvedValue(null);
      await again();
      const asked = greet.mock.calls.length;
      await again();
      expect([pulls.length, sync.state().fault]).toEqual([4, null]);
      expect(greet).toHaveBeenCalledTimes(asked);
      await sync.stop();
    }
  });
});
