// @vitest-environment happy-dom
import { render } from "preact";
import { act } from "preact/test-utils";
import { afterEach, expect, test, vi } from "vitest";
import { reminders as words } from "../../../pwa/src/app/words/reminders.ts";
import { RemindersSection } from "../../../pwa/src/screens/reminders.tsx";
import { desk } from "../../../pwa/src/state/desk.ts";
import { reminders } from "../../../pwa/src/state/reminders.ts";

const WISHES = { what: ["lockdown"], at: "07:00", evening: "18:00", quiet: null };

afterEach(() => {
  desk.value = null;
  reminders.value = null;
  vi.unstubAllGlobals();
});

const settled = () => act(() => new Promise<void>((done) => setTimeout(done)));

async function shown(): Promise<HTMLElement> {
  const box = document.createElement("div");
  await act(() => render(<RemindersSection />, box));
  await settled();
  return box;
}

function button(box: HTMLElement, name: string): HTMLButtonElement {
  const found = [...box.querySelectorAll("button")].find((one) => one.textContent === name);
  if (!found) throw new Error(`no button ${name} in ${box.textContent}`);
  return found;
}

/** A browser that throws at whatever it is asked. */
function stubBrowser() {
  const broken = () => Promise.reject(new Error("the worker is gone"));
  vi.stubGlobal("PushManager", class {});
  vi.stubGlobal("Notification", { permission: "default", requestPermission: broken });
  vi.stubGlobal("navigator", {
    userAgent: "",
    serviceWorker: { ready: Promise.resolve({ pushManager: { getSubscription: broken } }) },
  });
  const ask = async () => ({ kind: "unreachable", slow: false });
  desk.value = { ask, card: { paired_ms: 1 }, zone: () => "UTC" } as unknown as typeof desk.value;
}

test.each([
  ["turned on", false, "button.press"],
  ["a wish", true, "[role=switch]"],
])("a browser that throws leaves the page with words and its buttons free: %s", async (_, on, what) => {
  stubBrowser();
  if (on) reminders.value = { on: true, working: true, wishes: WISHES, last: null, lost: false };
  const box = await shown();
  await act(() => box.querySelector<HTMLElement>(what)?.click());
  await settled();
  expect(box.textContent).toContain(words.failed);
  expect(box.textContent).not.toContain(words.waiting);
  expect(button(box, on ? words.off : words.on).getAttribute("aria-disabled")).toBeNull();
});
