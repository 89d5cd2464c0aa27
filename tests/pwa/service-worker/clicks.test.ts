// The worker's own listeners, in a scope that keeps what it is told to do: no browser lets a script click a notice.
import { beforeEach, expect, it, vi } from "vitest";

// By its address: the worker's own types are those of another world than the tests'.
const WORKER = new URL("../../../pwa/src/service-worker/worker.ts", import.meta.url).href;
const ORIGIN = "https://book.example";
const listeners = new Map<string, (event: unknown) => void>();
let windows: { navigate: (path: string) => Promise<unknown>; postMessage: unknown; focus: unknown }[];
let did: string[];
let shown: { title: string; options: Record<string, unknown> }[];

const scope = {
  setTimeout: (then: () => void) => setTimeout(then, 50),
  addEventListener: (kind: string, listener: (event: unknown) => void) => listeners.set(kind, listener),
  location: { origin: ORIGIN },
  caches: {},
  crypto: { subtle: {} },
  registration: {
    showNotification: async (title: string, options: Record<string, unknown>) =>
      shown.push({ title, options }),
  },
  clients: {
    matchAll: async () => windows,
    openWindow: async (path: string) => did.push(`opened ${path}`),
  },
};

beforeEach(async () => {
  windows = [];
  did = [];
  shown = [];
  vi.stubGlobal("self", scope);
  vi.stubGlobal("BUILD_ID", "one");
  vi.stubGlobal("PRECACHED_FILES", []);
  if (listeners.size === 0) await import(/* @vite-ignore */ WORKER);
});

async function happen(kind: string, event: object): Promise<void> {
  const waits: Promise<unknown>[] = [];
  listeners.get(kind)?.({ ...event, waitUntil: (it: Promise<unknown>) => waits.push(it) });
  await Promise.all(waits);
}

const click = (data: unknown) =>
  happen("notificationclick", { notification: { data, close: () => did.push("closed") } });

/** A window. went: what its page answers; null where it does not. */
const tab = (goes: () => Promise<unknown>, went: boolean | null = null) => ({
  postMessage: (told: { kind: string; path: string }, [port]: MessagePort[]) => {
    did.push(`told to ${told.kind} ${told.path}`);
    if (went !== null) port?.postMessage(went);
  },
  focus: async () => did.push("focused"),
  navigate: async (path: string) => {
    did.push(`went to ${path}`);
    return goes();
  },
});
const focused = { focus: async () => did.push("focused") };

it("opens a window at the screen where none is open", async () => {
  await click("/setting/0195");
  expect(did).toEqual(["closed", "opened /setting/0195"]);
});

it("lets the open page show it by itself, so that what is half typed there stays", async () => {
  windows = [tab(async () => focused, true)];
  await click("/setting/0195");
  expect(did).toEqual(["closed", "told to show /setting/0195", "focused"]);
});

it("opens another window where something stands half typed in the open one", async () => {
  windows = [tab(async () => focused, false)];
  await click("/setting/0195");
  expect(did).toEqual(["closed", "told to show /setting/0195", "opened /setting/0195"]);
});

it("goes there in the window that is open but does not answer, and brings it to the front", async () => {
  windows = [tab(async () => focused)];
  await click("/setting/0195");
  expect(did).toEqual(["closed", "told to show /setting/0195", "went to /setting/0195", "focused"]);
});

it.each([
  ["may not be led there", () => Promise.reject(new TypeError("not controlled"))],
  ["was closed meanwhile", async () => null],
])("opens another window where the open one %s", async (_, goes) => {
  windows = [tab(goes)];
  await click("/setting/0195");
  expect(did).toEqual([
    "closed",
    "told to show /setting/0195",
    "went to /setting/0195",
    "opened /setting/0195",
  ]);
});

it.each([["https://elsewhere.example/x"], [null]])(
  "opens Due for an address that is not ours: %s",
  async (data) => {
    await click(data);
    expect(did).toEqual(["closed", "opened /due"]);
  },
);

it("shows one notice for each message, also for one without words, and sounds again for the same task", async () => {
  const told = JSON.stringify({
    web_push: 8030,
    notification: { title: "Lockdown: Sunday 29 March", tag: "t1" },
  });
  for (const data of [{ text: () => told }, { text: () => told }, null]) await happen("push", { data });
  expect(shown.map(({ title }) => title)).toEqual([
    "Lockdown: Sunday 29 March",
    "Lockdown: Sunday 29 March",
    "Something is due",
  ]);
  expect(shown.map(({ options }) => [options.tag, options.renotify])).toEqual([
    ["t1", true],
    ["t1", true],
    ["unread", true],
  ]);
});
