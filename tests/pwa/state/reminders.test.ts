import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { remindersFail } from "../../../pwa/src/state/connection.ts";
import { desk } from "../../../pwa/src/state/desk.ts";
import {
  look,
  RENEW_AFTER_MS,
  reminders,
  renew,
  renewOnWake,
  SUBSCRIBE_LIMIT_MS,
  tryOut,
  turnOff,
  turnOn,
  wish,
} from "../../../pwa/src/state/reminders.ts";
import type { Ask } from "../../../pwa/src/sync/server.ts";
import {
  asked,
  bePaired,
  browser,
  clock,
  KEY,
  leave,
  OFF,
  ON,
  phone,
  server,
  WISHES,
} from "./reminded-phone.ts";

beforeEach(bePaired);
afterEach(leave);

describe("turning reminders on", () => {
  it("subscribes with the server's key and tells it", async () => {
    expect(await turnOn(browser, WISHES)).toEqual({ kind: "done" });
    expect(asked).toEqual(["GET key", "POST subscription with wishes"]);
    expect(phone.held).toEqual({ key: KEY });
    expect(reminders.value).toMatchObject({ on: true, lost: false, wishes: WISHES });
  });

  it("says what stands in the way", async () => {
    phone.permission = "denied";
    expect(await turnOn(browser)).toEqual({ kind: "blocked" });
    phone.permission = "granted";
    server.reached = false;
    expect(await turnOn(browser)).toEqual({ kind: "away" });
    server.reached = true;
    expect(await turnOn({ ...browser, subscribe: () => Promise.reject(new Error("no")) })).toEqual({
      kind: "failed",
    });
    expect(reminders.value).toBeNull();
  });

  it("does not wait for ever for a push service", async () => {
    vi.useFakeTimers();
    phone.hangs = true;
    const outcome = turnOn(browser);
    await vi.advanceTimersByTimeAsync(SUBSCRIBE_LIMIT_MS);
    expect(await outcome).toEqual({ kind: "slow" });
  });

  it("makes a new subscription where the server has a new key", async () => {
    phone.held = { key: "AAAA" };
    await turnOn(browser);
    expect(phone.held).toEqual({ key: KEY });
  });
});

describe("at a start", () => {
  it("tells the server again, and asks the keeper nothing", async () => {
    server.state = ON;
    phone.held = { key: KEY };
    await renew({ ...browser, allow: () => Promise.reject(new Error("asked")) });
    expect(asked).toEqual(["GET subscription", "GET key", "POST subscription"]);
    expect(reminders.value).toMatchObject({ on: true, lost: false });
  });

  it("subscribes again where the phone forgot, and says so where it cannot", async () => {
    server.state = ON;
    await renew(browser);
    expect(phone.held).toEqual({ key: KEY });
    phone.held = null;
    await renew({ ...browser, subscribe: () => Promise.reject(new Error("needs a tap")) });
    expect(reminders.value).toMatchObject({ on: true, lost: true });
  });

  it("leaves phones alone that never asked", async () => {
    await renew(browser);
    expect(asked).toEqual(["GET subscription"]);
    phone.permission = "default";
    await renew(browser);
    await renew(null);
    expect(asked).toEqual(["GET subscription", "GET subscription"]);
    expect(phone.held).toBeNull();
    expect([reminders.value, remindersFail.value]).toEqual([null, false]);
  });

  it("says so where the keeper, or the phone by itself, took the permission back", async () => {
    server.state = ON;
    phone.permission = "default";
    await renew(browser);
    expect(reminders.value).toMatchObject({ on: true, lost: true });
    expect(remindersFail.value).toBe(true);
  });
});

describe("after a pairing", () => {
  it("goes on with what the phone still holds of this server, whatever device it is now", async () => {
    phone.held = { key: KEY };
    await renew(browser);
    expect(asked).toEqual(["GET subscription", "GET key", "GET key", "POST subscription"]);
    expect(reminders.value).toMatchObject({ on: true, wishes: WISHES });
  });

  it("asks another server for nothing that only the one before was asked for", async () => {
    phone.held = { key: "AAAA" };
    await renew(browser);
    expect(asked).toEqual(["GET subscription", "GET key"]);
    expect(phone.held).toEqual({ key: "AAAA" });
    expect(reminders.value).toBeNull();
  });
});

it("is said again when the app comes to the front after hours, and not at each look", async () => {
  server.state = ON;
  phone.held = { key: KEY };
  await renew(browser);
  asked.length = 0;
  clock.now_ms += RENEW_AFTER_MS - 1;
  await renewOnWake(browser);
  expect(asked).toEqual([]);
  clock.now_ms += 1;
  phone.held = null; // forgotten meanwhile
  await renewOnWake(browser);
  expect(asked).toEqual(["GET subscription", "GET key", "POST subscription"]);
  expect(phone.held).toEqual({ key: KEY });
});

it("is tried at the next look where the server was away", async () => {
  server.reached = false;
  await renewOnWake(browser);
  server.reached = true;
  asked.length = 0;
  await renewOnWake(browser);
  expect(asked).toEqual(["GET subscription"]);
});

it.each([
  ["the push service refused the last one", { ...ON, working: false }, true],
  ["the push service knows it no more", { ...ON, on: false, working: false }, true],
  ["nothing was sent yet", ON, false],
  ["the last one was taken", { ...ON, working: true }, false],
  ["the keeper turned it off", OFF, false],
])("is told on Due as failing or not where %s", async (_, state, fails) => {
  server.state = state;
  phone.held = { key: KEY };
  await look(browser);
  expect(remindersFail.value).toBe(fails);
});

it("stays off where it is turned off while a start still says it again", async () => {
  await turnOn(browser, WISHES);
  await Promise.all([renew(browser), turnOff(browser)]);
  expect(asked.at(-1)).toBe("DELETE subscription");
  expect(server.state).toEqual(OFF);
  expect(phone.held).toBeNull();
});

it("is seen on the page when the phone has forgotten", async () => {
  server.state = ON;
  await look(browser);
  expect(reminders.value).toMatchObject({ lost: true });
});

it("loses no change that comes before the answer to the one before", async () => {
  await turnOn(browser, WISHES);
  const first = wish(browser, { ...WISHES, at: "06:00" });
  expect(reminders.value?.wishes?.at).toBe("06:00");
  const second = wish(browser, { ...WISHES, at: "06:00", evening: "19:00" });
  expect([(await first).kind, (await second).kind]).toEqual(["done", "done"]);
  expect(server.state).toMatchObject({ wishes: { at: "06:00", evening: "19:00" } });
  expect(reminders.value?.wishes).toMatchObject({ at: "06:00", evening: "19:00" });
});

it("shows what the server has where a change did not reach it", async () => {
  await turnOn(browser, WISHES);
  const ask_ = desk.value?.ask as Ask;
  const failing = (async (request) =>
    request.method === "POST" ? { kind: "unreachable", slow: false } : ask_(request)) as Ask;
  desk.value = {
    ask: failing,
    card: { paired_ms: 1 },
    now_ms: () => clock.now_ms,
  } as unknown as typeof desk.value;
  expect(await wish(browser, { ...WISHES, at: "06:00" })).toEqual({ kind: "away" });
  expect(reminders.value?.wishes?.at).toBe("07:00");
});

it("changes what is wished for, tries out, and turns off", async () => {
  await turnOn(browser);
  asked.length = 0;
  expect(await wish(browser, WISHES)).toEqual({ kind: "done" });
  expect(await tryOut()).toEqual({ kind: "refused", words: "No." });
  expect(reminders.value?.working).toBe(false);
  expect(await turnOff(browser)).toEqual({ kind: "done" });
  expect(phone.held).toBeNull();
  expect(asked).toEqual(["POST subscription with wishes", "POST try", "DELETE subscription"]);
});
