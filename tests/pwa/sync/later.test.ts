import { expect, it, vi } from "vitest";
import { MemoryBook } from "../../../pwa/src/storage/memory.ts";
import { askLater, syncLater } from "../../../pwa/src/sync/later.ts";
import { type Occasion, type SyncState, startSync } from "../../../pwa/src/sync/loop.ts";
import { serverAt } from "../../../pwa/src/sync/server.ts";

const tools = () => ({
  storage: new MemoryBook("holding"),
  ask: () => Promise.resolve({ kind: "unreachable", slow: false } as const),
  now_ms: () => Date.now(),
  random: () => 0.5,
  locks: null,
  visible: () => true,
  mayPush: () => true,
  greet: () => Promise.resolve(null),
});

it("asks for what was asked before its script came, and tells what happens from then on", async () => {
  const asked: Occasion[] = [];
  const seen: SyncState[] = [];
  const sync = syncLater(tools(), async () => (given) => {
    const real = startSync(given);
    return {
      ...real,
      ask: (occasion) => {
        asked.push(occasion);
        real.ask(occasion);
      },
    };
  });
  sync.subscribe((state) => seen.push(state));
  sync.ask("start");
  sync.ask("saved");
  await vi.waitFor(() => expect(seen.at(-1)).toMatchObject({ busy: false, fault: { code: "unreachable" } }));
  expect(asked).toEqual(["start", "saved"]);
  expect(sync.state()).toEqual(seen.at(-1));
  await sync.stop();
});

it("fetches its script again where that failed, and says that the server is away", async () => {
  let fetches = 0;
  const sync = syncLater(tools(), async () => {
    fetches += 1;
    if (fetches === 1) throw new TypeError("Failed to fetch dynamically imported module");
    return startSync;
  });
  sync.ask("start");
  await vi.waitFor(() => expect(sync.state().fault).toEqual({ code: "unreachable" }));
  sync.ask("keeper");
  await vi.waitFor(() => expect(fetches).toBe(2));
  await sync.stop();
});

it("starts nothing once it was stopped", async () => {
  const begun = vi.fn(startSync);
  const sync = syncLater(tools(), async () => begun);
  sync.ask("start");
  await sync.stop();
  await new Promise((resolve) => setTimeout(resolve));
  expect(begun).not.toHaveBeenCalled();
});

it("reaches nobody while the script that asks the server is not here, and asks once it is", async () => {
  const request = { method: "GET", path: "/healthz", parse: (value: unknown) => value } as const;
  let fails = true;
  const ask = askLater(async () => {
    if (fails) throw new TypeError("no script");
    return serverAt(
      async () => Response.json({ ok: true }),
      () => 0,
    );
  });
  expect(await ask(request)).toEqual({ kind: "unreachable", slow: false });
  fails = false;
  expect(await ask(request)).toMatchObject({ kind: "ok", value: { ok: true } });
});
