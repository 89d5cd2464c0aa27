// Reminders that a keeper turned off stay off, whatever came in between.
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { remindersFail } from "../../../pwa/src/state/connection.ts";
import { desk } from "../../../pwa/src/state/desk.ts";
import { look, reminders, turnOff, turnOn } from "../../../pwa/src/state/reminders.ts";
import { asked, bePaired, browser, KEY, leave, OFF, phone, server, WISHES } from "./reminded-phone.ts";

afterEach(leave);

/** The app opened anew: nothing of it is left but what the phone keeps. */
const opened = async () => {
  vi.resetModules();
  const app = await import("../../../pwa/src/state/reminders.ts");
  const anew = await import("../../../pwa/src/state/desk.ts");
  anew.desk.value = desk.value;
  return app;
};
const startAnew = async () => (await opened()).renew(browser);

beforeEach(async () => {
  bePaired();
  const rows = new Map<string, string>();
  vi.stubGlobal("localStorage", {
    getItem: (key: string) => rows.get(key) ?? null,
    setItem: (key: string, value: string) => void rows.set(key, value),
    removeItem: (key: string) => void rows.delete(key),
  });
  await turnOn(browser, WISHES);
  asked.length = 0;
});

it("stays off where the phone would not let go of its subscription then", async () => {
  phone.lettingGo = "rejects";
  expect(await turnOff(browser)).toEqual({ kind: "done" });
  expect([server.state, phone.held]).toEqual([OFF, { key: KEY }]);
  phone.lettingGo = "well";
  await startAnew();
  expect(asked.filter((one) => one.startsWith("POST"))).toEqual([]);
  expect([server.state, phone.held]).toEqual([OFF, null]);
  asked.length = 0;
  await startAnew();
  expect(asked).toEqual(["GET subscription"]);
});

it("stays off where the app was closed in between", async () => {
  phone.lettingGo = "never";
  void (await opened()).turnOff(browser);
  await new Promise((later) => setTimeout(later));
  phone.lettingGo = "well";
  await startAnew();
  expect(asked.filter((one) => one.startsWith("POST"))).toEqual([]);
  expect([server.state, phone.held]).toEqual([OFF, null]);
});

it("reaches this phone no more where the server is away, which hears of it at the next start", async () => {
  server.reached = false;
  expect(await turnOff(browser)).toEqual({ kind: "done" });
  expect(phone.held).toBeNull();
  expect([reminders.value?.on, remindersFail.value]).toEqual([false, false]);
  server.reached = true;
  await look(browser);
  expect(reminders.value).toMatchObject({ on: false, lost: false, wishes: null });
  await startAnew();
  expect([server.state, phone.held]).toEqual([OFF, null]);
});

it("says so where neither the phone nor the server took it", async () => {
  server.reached = false;
  phone.lettingGo = "rejects";
  expect(await turnOff(browser)).toEqual({ kind: "away" });
  expect(reminders.value?.on).toBe(true);
});

it("comes on again with the keeper's tap, and stays on at the next start", async () => {
  await turnOff(browser);
  await turnOn(browser, WISHES);
  await startAnew();
  expect(asked.at(-1)).toBe("POST subscription");
  expect(phone.held).toEqual({ key: KEY });
});
