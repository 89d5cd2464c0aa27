import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { MemoryBook } from "../../../pwa/src/storage/memory.ts";
import type { Locks } from "../../../pwa/src/sync/lock.ts";
import type { Answer, Ask } from "../../../pwa/src/sync/server.ts";
import { writer } from "../storage/entries-of.ts";
import { EMPTY_PAGE, gone, loop, refused } from "./loops.ts";

const later = (ms: number) => vi.advanceTimersByTimeAsync(ms);

beforeEach(() => {
  vi.useFakeTimers({ now: 0 });
});
afterEach(() => {
  vi.useRealTimers();
});

describe("when a round runs", () => {
  it("at once on an occasion, two seconds after a save, once for many saves", async () => {
    const { pulls, sync } = loop();
    sync.ask("start");
    await later(0);
    expect(pulls).toEqual([0]);
    sync.ask("saved");
    await later(1000);
    sync.ask("saved");
    await later(999);
    expect(pulls).toEqual([0]);
    await later(1);
    expect(pulls).toEqual([0, 2000]);
  });

  it("every quarter of a minute while the app is looked at, and never by itself while it is not", async () => {
    let visible = true;
    const { pulls, sync } = loop({ visible: () => visible });
    sync.ask("start");
    await later(32_000);
    expect(pulls).toEqual([0, 15_000, 30_000]);
    visible = false;
    await later(600_000);
    expect(pulls).toHaveLength(4); // the one that was due; none follows it
    visible = true;
    sync.ask("visible");
    await later(0);
    expect(pulls).toHaveLength(5);
  });

  it("again soon for an entry that was saved while a round ran", async () => {
    const { pulls, net, sync } = loop();
    let finish: (answer: Answer<unknown>) => void = () => undefined;
    net.answer = () =>
      new Promise((done) => {
        finish = done;
      });
    sync.ask("start");
    await later(0);
    sync.ask("saved");
    await later(5000);
    expect(pulls).toHaveLength(1);
    const ok = { kind: "ok", value: EMPTY_PAGE, sent_ms: 0, got_ms: 0 } as const;
    net.answer = () => ok;
    finish(ok);
    await later(2000);
    expect(pulls).toHaveLength(2);
  });

  it("after faults in growing pauses of at most a quarter of a minute, at once when looked at again", async () => {
    const { pulls, net, sync } = loop();
    net.answer = () => gone;
    sync.ask("start");
    await later(180_000);
    const pauses = pulls.slice(1).map((at, i) => Math.round((at - (pulls[i] ?? 0)) / 1000));
    expect(pauses.slice(0, 6)).toEqual([3, 6, 12, 15, 15, 15]);
    const before = pulls.length;
    sync.ask("visible");
    await later(0);
    expect(pulls).toHaveLength(before + 1);
  });

  it("spreads the pauses of many phones", async () => {
    const { pulls, net, sync } = loop({ random: () => 0 });
    net.answer = () => gone;
    sync.ask("start");
    await later(1500);
    expect(pulls).toEqual([0, 1500]);
  });

  it("not before a busy server wants to be asked again, whoever asks", async () => {
    const { pulls, net, sync } = loop();
    net.answer = () => refused(503, 20_000);
    sync.ask("start");
    await later(0);
    for (const occasion of ["saved", "visible", "keeper", "online"] as const) sync.ask(occasion);
    await later(19_999);
    expect(pulls).toHaveLength(1);
    await later(1);
    expect(pulls).toHaveLength(2);
  });

  it("at once when asked, although the clock was set back or forward by a year meanwhile", async () => {
    const { pulls, net, sync } = loop();
    net.answer = () => refused(503, 20_000);
    sync.ask("start");
    await later(0);
    for (const turn of [-1, 2]) {
      vi.setSystemTime(Date.now() + turn * 365 * 86_400_000);
      sync.ask("keeper");
      await later(0);
    }
    expect(pulls).toHaveLength(3);
    await later(60_000);
    expect(pulls.length).toBeGreaterThan(3); // and goes on by itself
  });

  it("not any more once it was stopped, and stopping waits for the round that runs", async () => {
    const { pulls, net, sync } = loop();
    let finish: (answer: Answer<unknown>) => void = () => undefined;
    net.answer = () =>
      new Promise((done) => {
        finish = done;
      });
    sync.ask("start");
    await later(0);
    let stopped = false;
    void sync.stop().then(() => {
      stopped = true;
    });
    await later(1000);
    expect(stopped).toBe(false);
    finish(gone);
    await later(100_000);
    expect([stopped, pulls.length]).toEqual([true, 1]);
  });

  it("sends nothing more of a running round once it was stopped", async () => {
    const storage = new MemoryBook("home");
    await storage.append([writer().entry()]);
    const asked: string[] = [];
    let finish: () => void = () => undefined;
    const ask = (async (request: { path: string }) => {
      asked.push(request.path);
      await new Promise<void>((done) => {
        finish = done;
      });
      return { kind: "ok", value: EMPTY_PAGE, sent_ms: 0, got_ms: 0 };
    }) as unknown as Ask;
    const { sync } = loop({ ask }, storage);
    sync.ask("start");
    await later(0);
    const stopping = sync.stop();
    finish();
    await stopping;
    expect(asked.map((path) => path.split("?")[0])).toEqual(["/api/v1/pull"]);
  });
});

describe("who runs it", () => {
  /** The browser's locks, as far as they are used: one holder, `ifAvailable` or a queue. */
  function browserLocks(): Locks {
    let queue = Promise.resolve();
    let held = false;
    const request = (_: string, options: unknown, work: (lock: unknown) => Promise<unknown>) => {
      if (held && (options as LockOptions).ifAvailable) return work(null);
      const turn = queue.then(async () => {
        held = true;
        return work({ name: "lock" }).finally(() => {
          held = false;
        });
      });
      queue = turn.then(() => undefined);
      return turn;
    };
    return { request } as unknown as Locks;
  }

  it("is one tab at a time; the other looks again soon", async () => {
    const locks = browserLocks();
    let running = 0;
    let most = 0;
    const busy = async (): Promise<Answer<unknown>> => {
      running += 1;
      most = Math.max(most, running);
      await new Promise((done) => setTimeout(done, 1000));
      running -= 1;
      return { kind: "ok", value: EMPTY_PAGE, sent_ms: 0, got_ms: 0 };
    };
    const [one, two] = [loop({ locks }), loop({ locks })];
    one.net.answer = busy;
    two.net.answer = busy;
    one.sync.ask("start");
    two.sync.ask("start");
    await later(10_000);
    expect(most).toBe(1);
    expect([one.pulls.length, two.pulls.length]).toEqual([1, 1]);
  });
});

describe("what it tells", () => {
  it("when the log was last read to its end, and how far the clocks are apart", async () => {
    const { sync, net } = loop();
    const seen: boolean[] = [];
    sync.subscribe((state) => seen.push(state.busy));
    net.answer = () => ({ kind: "ok", value: EMPTY_PAGE, sent_ms: 1000, got_ms: 3000 });
    await later(5000);
    sync.ask("start");
    await later(0);
    expect(sync.state()).toEqual({ busy: false, fault: null, complete_ms: 5000, skew_ms: 58_000 });
    expect(seen).toEqual([true, true, false]);
  });

  it("keeps the last good time through a fault", async () => {
    const { sync, net } = loop();
    sync.ask("start");
    await later(0);
    net.answer = () => ({ kind: "not_ours" });
    await later(15_000);
    expect(sync.state()).toMatchObject({ fault: { code: "not_ours" }, complete_ms: 0 });
  });
});
