import { describe, expect, it } from "vitest";
import { canonical } from "../../../pwa/src/book/wire.ts";
import { NotSaved } from "../../../pwa/src/storage/not-saved.ts";
import { nextBatch } from "../../../pwa/src/sync/push.ts";
import { syncRound } from "../../../pwa/src/sync/round.ts";
import { serverAt } from "../../../pwa/src/sync/server.ts";
import { json, ModelServer, refusal } from "./model-server.ts";
import { phone } from "./phone.ts";

const positions = async (of: ReturnType<typeof phone>) => (await of.storage.all()).map((one) => one.position);
const pushes = (server: ModelServer) => server.asked.filter((one) => one.path === "/api/v1/push");

describe("a round", () => {
  it("brings one phone's entries to the server and to the other phone", async () => {
    const server = new ModelServer();
    const [a, b] = [phone("a", 1), phone("b", 99)];
    const entries = [a.entry(), a.entry(), a.entry()];
    await a.storage.append(entries);
    expect(await a.sync(server.fetch)).toEqual({ complete: true, fault: null, skew_ms: 0 });
    await b.sync(server.fetch);
    expect(await positions(a)).not.toContain(null);
    expect(await b.storage.all()).toEqual(await a.storage.all());
    expect(pushes(server)).toHaveLength(1);
  });

  it("does not call an entry 'on the server' before it came back in the phone's own pull", async () => {
    const server = new ModelServer();
    const a = phone("a", 1);
    await a.storage.append([a.entry()]);
    let pulls = 0;
    const cutOff: typeof fetch = async (input, init) => {
      if (String(input).includes("/pull") && ++pulls > 1) throw new TypeError("gone");
      return server.fetch(input, init);
    };
    await a.sync(cutOff);
    expect(server.rows).toHaveLength(1);
    expect(await positions(a)).toEqual([null]);
    await a.sync(server.fetch);
    expect(await positions(a)).not.toContain(null);
    expect(pushes(server)).toHaveLength(1); // the pull told first that it had arrived
  });

  it("heals a server that was restored from an older copy and lost its epoch or kept it", async () => {
    for (const epoch of ["epoch-1", null]) {
      const server = new ModelServer();
      const [a, b] = [phone("a", 1), phone("b", 99)];
      await a.storage.append([a.entry(), a.entry()]);
      await a.sync(server.fetch);
      const copy = server.snapshot();
      await a.storage.append([a.entry(), a.entry()]);
      await b.storage.append([b.entry()]);
      await b.sync(server.fetch);
      await a.sync(server.fetch);
      const whole = server.texts();
      server.restore(copy, epoch);
      await b.sync(server.fetch);
      await a.sync(server.fetch);
      await b.sync(server.fetch);
      expect(server.texts()).toEqual(whole);
      expect(await positions(a)).not.toContain(null);
      expect((await b.storage.all()).map((one) => one.entry)).toEqual(
        (await a.storage.all()).map((one) => one.entry),
      );
    }
  });

  it("keeps the server's body on a clash, its own apart, and stops offering it", async () => {
    const server = new ModelServer();
    const a = phone("a", 1);
    const own = a.entry();
    const servers = { ...own, body: { text: "was there first" } };
    server.store(canonical(servers));
    await a.storage.append([own, a.entry()]);
    // Cut off the first pull, so that the clash is told by the push.
    let pulls = 0;
    const noFirstPull: typeof fetch = async (input, init) =>
      String(input).includes("/pull") && ++pulls === 1
        ? json(200, { entries: [], cursor: `${server.epoch}.0.${"0".repeat(64)}`, more: false, server_ms: 1 })
        : server.fetch(input, init);
    await a.sync(noFirstPull);
    expect((await a.storage.all()).map((one) => one.entry.body.text)).toEqual(["was there first", "a note"]);
    expect(await a.storage.apart()).toEqual([{ id: own.id, text: canonical(own) }]);
    expect(await a.storage.waiting()).toEqual([]);
  });

  it("lets a reader pull and never push", async () => {
    const server = new ModelServer();
    const [a, b] = [phone("a", 1), phone("b", 99)];
    await a.storage.append([a.entry()]);
    await a.sync(server.fetch);
    await b.storage.append([b.entry()]);
    expect(await b.sync(server.fetch, false)).toMatchObject({ complete: true });
    expect(server.rows).toHaveLength(1);
    expect(await b.storage.all()).toHaveLength(2);
  });

  it("reads on while the server's disk is full, and says so", async () => {
    const server = new ModelServer();
    const [a, b] = [phone("a", 1), phone("b", 99)];
    await b.storage.append([b.entry()]);
    await b.sync(server.fetch);
    await a.storage.append([a.entry()]);
    const full: typeof fetch = async (input, init) =>
      init?.method === "POST" ? refusal(507, "disk_full") : server.fetch(input, init);
    expect(await a.sync(full)).toMatchObject({
      complete: true,
      fault: { code: "refused", status: 507, refusal: { code: "disk_full" } },
    });
    expect(await a.storage.all()).toHaveLength(2);
    expect(await a.storage.waiting()).toHaveLength(1);
  });

  it("keeps everything when the pairing was revoked", async () => {
    const server = new ModelServer();
    const a = phone("a", 1);
    await a.storage.append([a.entry()]);
    server.paired = false;
    expect(await a.sync(server.fetch)).toMatchObject({ complete: false, fault: { status: 401 } });
    server.paired = true;
    await a.sync(server.fetch);
    expect(server.rows).toHaveLength(1);
  });

  it("tells a phone that cannot keep what came from a server that did not answer", async () => {
    const server = new ModelServer();
    const [a, b] = [phone("a", 1), phone("b", 99)];
    await a.storage.append([a.entry()]);
    await a.sync(server.fetch);
    b.storage.applyPage = () => Promise.reject(new NotSaved("full"));
    expect(await b.sync(server.fetch)).toMatchObject({ complete: false, fault: { code: "storage" } });
    expect(await b.storage.cursor()).toBeNull();
  });
});

describe("a batch", () => {
  it("carries at most 200 entries, and less than 256 KiB", async () => {
    const a = phone("a", 1);
    const long = "ä".repeat(3000);
    await a.storage.append(
      Array.from({ length: 450 }, (_, i) => a.entry({ body: { text: i < 100 ? long : "short" } })),
    );
    const queue = await a.storage.waiting();
    const sizes: number[] = [];
    while (queue.length > 0) {
      const batch = nextBatch(queue, 200);
      sizes.push(batch.length);
      expect(Buffer.byteLength(JSON.stringify({ entries: batch.map((one) => one.text), v: 1 }))).toBeLessThan(
        300 * 1024,
      );
    }
    expect(sizes.reduce((sum, n) => sum + n, 0)).toBe(450);
    expect(Math.max(...sizes)).toBeLessThanOrEqual(200);
    const server = new ModelServer();
    expect(await a.sync(server.fetch)).toMatchObject({ complete: true, fault: null });
    expect(server.rows).toHaveLength(450);
  });

  it("is halved until the odd entry stands alone: that one is set aside with the server's words", async () => {
    const server = new ModelServer();
    const a = phone("a", 1);
    const entries = Array.from({ length: 200 }, () => a.entry());
    await a.storage.append(entries);
    const odd = entries[77]?.id ?? "";
    let refused = 0;
    const picky: typeof fetch = async (input, init) => {
      if (!String(init?.body ?? "").includes(odd)) return server.fetch(input, init);
      refused += 1;
      return refusal(400, "envelope");
    };
    expect(await a.sync(picky)).toMatchObject({ complete: true, fault: null });
    expect(refused).toBeLessThanOrEqual(Math.ceil(Math.log2(200)) + 1);
    expect(server.rows).toHaveLength(199);
    const aside = (await a.storage.all()).filter((one) => one.aside !== null);
    expect(aside.map((one) => [one.id, one.aside?.code, one.aside?.message])).toEqual([
      [odd, "envelope", "no: envelope"],
    ]);
    expect(await a.storage.waiting()).toEqual([]);
  });

  it("is not halved for a wrong address", async () => {
    const a = phone("a", 1);
    await a.storage.append([a.entry(), a.entry()]);
    const server = new ModelServer();
    const wrongHost: typeof fetch = async (input, init) =>
      init?.method === "POST" ? refusal(400, "host") : server.fetch(input, init);
    expect(await a.sync(wrongHost)).toMatchObject({ fault: { code: "refused", refusal: { code: "host" } } });
    expect(await a.storage.waiting()).toHaveLength(2);
  });

  it("waits whole while the server is older than the app, and sets no entry aside", async () => {
    const a = phone("a", 1);
    await a.storage.append(Array.from({ length: 9 }, () => a.entry()));
    const server = new ModelServer();
    let asked = 0;
    const older: typeof fetch = async (input, init) => {
      if (init?.method !== "POST") return server.fetch(input, init);
      asked += 1;
      return json(400, {
        error: { code: "envelope", message: "v", remedy: "Update the server.", field: "v" },
      });
    };
    expect(await a.sync(older)).toMatchObject({ fault: { code: "refused", status: 400 } });
    expect([asked, (await a.storage.waiting()).length]).toEqual([1, 9]);
    await a.sync(server.fetch);
    expect(server.rows).toHaveLength(9);
  });

  it("shrinks to one entry on a line that is too slow for more, and all arrives", async () => {
    const server = new ModelServer();
    const a = phone("a", 1);
    await a.storage.append(Array.from({ length: 12 }, () => a.entry()));
    const slow: typeof fetch = (input, init) => {
      const n = String(init?.body ?? "").split('"kind"').length - 1;
      if (n <= 1) return server.fetch(input, init);
      return new Promise((_, fail) => {
        init?.signal?.addEventListener("abort", () => fail(init.signal?.reason));
      });
    };
    for (let i = 0; i < 40 && (await a.storage.waiting()).length > 0; i += 1) {
      await syncRound({
        storage: a.storage,
        ask: serverAt(slow, () => 0, 5),
        paces: a.paces,
        mayPush: true,
        greet: async () => null,
      });
    }
    expect(server.rows).toHaveLength(12);
  });
});

describe("an answer that does not add up", () => {
  const rogue = (change: (page: Record<string, unknown>) => unknown, server: ModelServer): typeof fetch => {
    return async (input, init) => {
      const response = await server.fetch(input, init);
      if (!String(input).includes("/pull")) return response;
      return json(200, change((await response.json()) as Record<string, unknown>));
    };
  };
  type Rows = { position: number; entry: Record<string, unknown> }[];
  const cases: [string, (page: Record<string, unknown>) => unknown][] = [
    ["a row is missing", (page) => ({ ...page, entries: (page.entries as Rows).slice(1) })],
    [
      "a row came twice",
      (page) => ({ ...page, entries: [...(page.entries as Rows), ...(page.entries as Rows)] }),
    ],
    [
      "a body was altered",
      (page) => ({
        ...page,
        entries: (page.entries as Rows).map((row) => ({ ...row, entry: { ...row.entry, body: {} } })),
      }),
    ],
    ["the rows are out of order", (page) => ({ ...page, entries: [...(page.entries as Rows)].reverse() })],
    [
      "there is always more, and nothing comes",
      (page) => ({ ...page, entries: [], more: true, cursor: `epoch-0.0.${"0".repeat(64)}` }),
    ],
    ["the cursor cannot be read", (page) => ({ ...page, cursor: "somewhere" })],
  ];
  for (const [name, change] of cases) {
    it(`is not kept when ${name}`, async () => {
      const server = new ModelServer();
      const [a, b] = [phone("a", 1), phone("b", 99)];
      await a.storage.append([a.entry(), a.entry()]);
      await a.sync(server.fetch);
      expect(await b.sync(rogue(change, server))).toMatchObject({
        complete: false,
        fault: { code: "damaged" },
      });
      expect(await b.storage.all()).toEqual([]);
    });
  }
});
