import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { ready as words } from "../../../pwa/src/app/words/ready.ts";
import { desk } from "../../../pwa/src/state/desk.ts";
import { workerFault } from "../../../pwa/src/state/newer-app.ts";
import { kept, storageFault } from "../../../pwa/src/state/opening.ts";
import { type Check, CLOCK_LIMIT_MS, checkPhone } from "../../../pwa/src/state/ready.ts";
import { reminders } from "../../../pwa/src/state/reminders.ts";
import type { Ask } from "../../../pwa/src/sync/server.ts";

const ME = "/api/v1/me?strangers=1";
const OWN_NAME = { device: "phone-a", role: "keeper", holding: { id: "h-1", name: "" }, demo: false };
const NOW_MS = 1_772_971_200_000;
const ON = {
  on: true,
  working: true,
  wishes: { what: [], at: "07:00", evening: "18:00", quiet: null },
  last: null,
};

interface Wish {
  secure?: boolean;
  worker?: "active" | "none" | "missing";
  standalone?: boolean;
  permission?: NotificationPermission;
  push?: boolean;
  server?: unknown;
  paired?: boolean;
  /** What the server says to "who am I": the status of a refusal (401: it does not know us), or nothing. */
  me?: number | "away";
}

let asked: string[];

function page(wish: Wish): typeof globalThis {
  const { secure = true, worker = "active", standalone = true, permission = "granted", push = true } = wish;
  const container = { getRegistration: async () => (worker === "active" ? { active: {} } : undefined) };
  return {
    isSecureContext: secure,
    navigator: worker === "missing" ? {} : { serviceWorker: container },
    matchMedia: () => ({ matches: standalone }),
    ...(push ? { PushManager: {}, Notification: { permission } } : {}),
  } as unknown as typeof globalThis;
}

async function told(wish: Wish = {}): Promise<Record<string, string>> {
  const { paired = true } = wish;
  const ask = (async ({ path, parse }) => {
    asked.push(path);
    if (wish.server === "away") return { kind: "unreachable", slow: false };
    if (wish.server === "hotspot") return { kind: "not_ours" };
    if (path === ME && wish.me === "away") return { kind: "unreachable", slow: true };
    if (path === ME && wish.me === 401) return { kind: "ok", value: parse({ device: null }) };
    if (path === ME && wish.me) return { kind: "refused", status: wish.me };
    if (path === ME) return { kind: "ok", value: parse(OWN_NAME) };
    const value = parse({ ok: true, server_ms: wish.server ?? NOW_MS });
    return { kind: "ok", value, sent_ms: NOW_MS - 50, got_ms: NOW_MS + 50 };
  }) as Ask;
  desk.value = { ask, card: { paired_ms: paired ? 1 : null } } as unknown as typeof desk.value;
  const checks = await checkPhone(page(wish));
  for (const one of checks) expect(words.checks[one.what]?.[one.why], `${one.what} ${one.why}`).toBeDefined();
  return Object.fromEntries(checks.map((one: Check) => [one.what, `${one.state} ${one.why}`]));
}

beforeEach(() => {
  asked = [];
  kept.value = true;
  reminders.value = { ...ON, lost: false };
});

afterEach(() => {
  desk.value = null;
  kept.value = null;
  reminders.value = null;
  workerFault.value = null;
  storageFault.value = null;
});

describe("a phone that is ready", () => {
  it("has nothing to put right", async () => {
    expect(new Set(Object.values(await told()))).toEqual(new Set(["well well"]));
    expect(asked).toEqual(["/healthz", ME]);
  });
});

describe("each thing that is missing is told by itself", () => {
  it.each<[string, Wish, Record<string, string>]>([
    [
      "plain http",
      { secure: false, worker: "missing" },
      { secure: "amiss plain", worker: "amiss plain", push: "open none" },
    ],
    [
      "a browser without workers",
      { worker: "missing", push: false },
      { worker: "amiss none", push: "open none" },
    ],
    ["a worker on its way", { worker: "none" }, { worker: "open waiting" }],
    ["a tab", { standalone: false }, { installed: "open tab" }],
    ["no push", { push: false }, { push: "open none" }],
    ["notifications forbidden", { permission: "denied" }, { push: "amiss blocked" }],
    ["no answer", { server: "away" }, { server: "amiss away", clock: "open unsaid" }],
    ["a sign-in page", { server: "hotspot" }, { server: "amiss not_ours", clock: "open unsaid" }],
    ["no pairing", { paired: false }, { server: "open unpaired" }],
    ["a pairing that was ended", { me: 401 }, { server: "amiss revoked", push: "amiss revoked" }],
    [
      "a pairing that was ended, without push",
      { me: 401, push: false },
      { server: "amiss revoked", push: "open none" },
    ],
    ["a server that goes away in between", { me: "away" }, { server: "amiss away" }],
    ["a server that is busy and answers", { me: 503 }, {}],
    ["a clock behind", { server: NOW_MS + CLOCK_LIMIT_MS + 1 }, { clock: "amiss off" }],
    ["a clock ahead", { server: NOW_MS - CLOCK_LIMIT_MS - 1 }, { clock: "amiss off" }],
    ["a clock just within", { server: NOW_MS + CLOCK_LIMIT_MS }, {}],
  ])("%s", async (_, wish, amiss) => {
    const found = await told(wish);
    const others = Object.entries(found).filter(([, state]) => state !== "well well");
    expect(Object.fromEntries(others)).toEqual(amiss);
  });

  it("why the worker was refused", async () => {
    workerFault.value =
      "SecurityError: Failed to register a ServiceWorker: An SSL certificate error occurred.";
    expect((await told({ worker: "none" })).worker).toBe("amiss untrusted");
    workerFault.value = "TypeError: Failed to fetch";
    expect((await told({ worker: "none" })).worker).toBe("amiss failed");
    expect((await told()).worker).toBe("well well"); // one that runs is enough
  });

  it("what the phone says of its storage", async () => {
    kept.value = false;
    expect((await told()).storage).toBe("open unprotected");
    kept.value = null;
    expect((await told()).storage).toBe("open unsaid");
    storageFault.value = "full";
    expect((await told()).storage).toBe("amiss cannot");
  });

  it("reminders that are off, lost, ended or refused", async () => {
    reminders.value = null;
    expect((await told()).push).toBe("open off");
    for (const broken of [{ lost: true }, { on: false }, { working: false }]) {
      reminders.value = { ...ON, lost: false, ...broken };
      expect((await told()).push).toBe("amiss broken");
    }
    reminders.value = { ...ON, working: null, lost: false };
    expect((await told()).push).toBe("well well");
  });
});
