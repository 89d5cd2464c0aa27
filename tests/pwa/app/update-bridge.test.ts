// @vitest-environment happy-dom
import { expect, it } from "vitest";
import { noticeTyping } from "../../../pwa/src/app/half-typed.ts";
import { bridgeUpdates } from "../../../pwa/src/app/update-bridge.ts";
import { KEEP_ME, KEPT, SHOW, type Told } from "../../../pwa/src/service-worker/messages.ts";
import { readyOffline } from "../../../pwa/src/state/newer-app.ts";
import { path } from "../../../pwa/src/state/whereabouts.ts";

/** A page, and the worker that is installing when it comes. */
function browser() {
  const told: Told[] = [];
  const container = Object.assign(new EventTarget(), {
    controller: null,
    ready: Promise.resolve(),
    register: async () => Object.assign(new EventTarget(), { installing: null, waiting: null, active: null }),
    startMessages: () => undefined,
  });
  let activate = () => {};
  const active = { postMessage: (message: Told) => void told.push(message) };
  Object.assign(container, { ready: new Promise((done) => (activate = () => done({ active }))) });
  const page = Object.assign(new EventTarget(), {
    navigator: { serviceWorker: container },
    document: Object.assign(new EventTarget(), { visibilityState: "visible" }),
    setInterval: () => 0,
    setTimeout: () => 0,
  });
  return {
    page: page as unknown as Window & typeof globalThis,
    told,
    activate,
    say: (data: unknown, ports: MessagePort[] = []) =>
      container.dispatchEvent(new MessageEvent("message", { data, ports })),
    lookAgain: () => page.document.dispatchEvent(new Event("visibilitychange")),
  };
}

const soon = () => new Promise((later) => setTimeout(later, 0));

it("calls the app ready to go offline once a worker is active and has every file, in the page that came before it", async () => {
  const { page, told, activate, say } = browser();
  await bridgeUpdates(page);
  await soon();
  expect([readyOffline.value, told]).toEqual([false, []]);
  activate();
  await soon();
  expect([readyOffline.value, told]).toEqual([false, [KEEP_ME]]);
  say({ kind: "other" });
  expect(readyOffline.value).toBe(false);
  say(KEPT);
  expect(readyOffline.value).toBe(true);
});

it("asks again when the page is looked at, until the worker has every file", async () => {
  const { page, told, activate, say, lookAgain } = browser();
  await bridgeUpdates(page);
  activate();
  await soon();
  lookAgain();
  await soon();
  expect(told).toEqual([KEEP_ME, KEEP_ME]);
  say(KEPT);
  lookAgain();
  await soon();
  expect(told).toHaveLength(2);
});

it("promises nothing where the browser keeps no app", async () => {
  readyOffline.value = null;
  const page = { navigator: {} } as unknown as Window & typeof globalThis;
  await bridgeUpdates(page);
  expect(readyOffline.value).toBeNull();
});

it("shows what a tapped notice is about, unless something stands half typed; it answers both times", async () => {
  const { page, say } = browser();
  await bridgeUpdates(page);
  const answered = async (to: string) => {
    const { port1, port2 } = new MessageChannel();
    const heard = new Promise((done) => port1.addEventListener("message", ({ data }) => done(data)));
    port1.start();
    say({ ...SHOW, path: to }, [port2]);
    return heard.finally(() => port1.close());
  };
  expect(await answered("/rooms")).toBe(true);
  expect(path.value).toBe("/rooms");
  noticeTyping(document);
  const field = document.body.appendChild(document.createElement("input"));
  field.value = "12";
  field.dispatchEvent(new Event("input", { bubbles: true }));
  expect(await answered("/due")).toBe(false);
  expect(path.value).toBe("/rooms");
  field.remove();
  expect(await answered("/due")).toBe(true);
  expect(path.value).toBe("/due");
});
