import { expect, it } from "vitest";
import { renewSubscription } from "../../../pwa/src/service-worker/renewal.ts";

const json = (value: unknown, status = 200) => new Response(JSON.stringify(value), { status });
const WISHES = { what: ["lockdown"], at: "07:00", evening: "18:00", quiet: null };

function line(state: () => Response, key: () => Response = () => json({ key: "BP4z" })) {
  const asked: [string, string | undefined, unknown][] = [];
  const subscribed: unknown[] = [];
  return {
    asked,
    subscribed,
    fetch: async (path: string, init?: RequestInit) => {
      asked.push([path, init?.method, init?.body ? JSON.parse(String(init.body)) : null]);
      return path.endsWith("/key") ? key() : state();
    },
    subscribe: async (options: PushSubscriptionOptionsInit) => {
      subscribed.push(options);
      return { toJSON: () => ({ endpoint: "https://fcm.googleapis.com/2" }) } as unknown as PushSubscription;
    },
  };
}

it("subscribes anew with the server's key and says where, without wishes", async () => {
  const browser = line(() => json({ on: true, wishes: WISHES }));
  await renewSubscription(browser);
  expect(browser.subscribed).toEqual([{ userVisibleOnly: true, applicationServerKey: "BP4z" }]);
  expect(browser.asked).toEqual([
    ["/api/v1/reminders/subscription", undefined, null],
    ["/api/v1/reminders/key", undefined, null],
    [
      "/api/v1/reminders/subscription",
      "POST",
      { subscription: { endpoint: "https://fcm.googleapis.com/2" } },
    ],
  ]);
});

it.each([
  ["the keeper turned reminders off", () => json({ on: false, wishes: null })],
  ["this phone is not paired any more", () => json({ error: { code: "unpaired" } }, 401)],
  ["something else answers", () => json([])],
])("asks for nothing where %s", async (_, state) => {
  const browser = line(state);
  await renewSubscription(browser);
  expect(browser.subscribed).toEqual([]);
  expect(browser.asked).toHaveLength(1);
});

it("subscribes with no key but the server's", async () => {
  const browser = line(
    () => json({ on: true, wishes: WISHES }),
    () => json({ key: 3 }),
  );
  await renewSubscription(browser);
  expect(browser.subscribed).toEqual([]);
});
