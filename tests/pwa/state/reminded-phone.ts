// A phone, its push service and its server, as far as reminders need them.
import { vi } from "vitest";
import { remindersFail } from "../../../pwa/src/state/connection.ts";
import { desk } from "../../../pwa/src/state/desk.ts";
import { type Browser, reminders } from "../../../pwa/src/state/reminders.ts";
import { noteTurnedOff } from "../../../pwa/src/state/turned-off.ts";
import type { Ask } from "../../../pwa/src/sync/server.ts";

export const KEY = "BP4z9KsN6nGRTbVYI_c7VJSPQTBtkgcy27mlmlMoZIIg";
export const WISHES = { what: ["lockdown"], at: "07:00", evening: "18:00", quiet: null };
export const OFF = { on: false, working: null, wishes: null, last: null };
export const ON = { ...OFF, on: true, wishes: WISHES };

export const clock = { now_ms: 1_800_000_000_000 };
/** What the server was asked, in order. */
export const asked: string[] = [];
export const server: { state: unknown; reached: boolean } = { state: null, reached: true };
export const phone: {
  permission: NotificationPermission;
  held: { key: string } | null;
  hangs: boolean;
  lettingGo: "well" | "rejects" | "never";
} = { permission: "granted", held: null, hangs: false, lettingGo: "well" };

function bytesOf(key: string): ArrayBuffer {
  const text = atob(key.replaceAll("-", "+").replaceAll("_", "/"));
  return Uint8Array.from(text, (letter) => letter.charCodeAt(0)).buffer;
}

function subscription(held: { key: string }): PushSubscription {
  return {
    options: { applicationServerKey: bytesOf(held.key), userVisibleOnly: true },
    toJSON: () => ({ endpoint: "https://fcm.googleapis.com/1", keys: { p256dh: "p", auth: "a" } }),
    unsubscribe: async () => {
      if (phone.lettingGo === "never") return new Promise(() => undefined);
      if (phone.lettingGo === "rejects") throw new Error("no");
      phone.held = null;
      return true;
    },
  } as unknown as PushSubscription;
}

export const browser: Browser = {
  permission: () => phone.permission,
  allow: async () => phone.permission,
  held: async () => (phone.held ? subscription(phone.held) : null),
  subscribe: async (key) => {
    if (phone.hangs) return new Promise(() => undefined);
    phone.held = { key };
    return subscription(phone.held);
  },
};

export const ask = (async ({ method, path, body: sent, parse }) => {
  const body = typeof sent === "string" ? sent : "";
  asked.push(`${method} ${path.split("/").at(-1)}${body.includes("wishes") ? " with wishes" : ""}`);
  if (!server.reached) return { kind: "unreachable", slow: false };
  if (path.endsWith("/key")) return { kind: "ok", value: parse({ key: KEY }), sent_ms: 0, got_ms: 0 };
  if (method === "POST" && path.endsWith("/subscription")) {
    server.state = { ...ON, wishes: JSON.parse(body).wishes ?? WISHES };
  }
  if (method === "DELETE") server.state = OFF;
  const value = path.endsWith("/try") ? { ...ON, working: false, sent: false, words: "No." } : server.state;
  return { kind: "ok", value: parse(value), sent_ms: 0, got_ms: 0 };
}) as Ask;

/** A phone that is paired and was never asked; time has gone on since the one before. */
export function bePaired(): void {
  asked.length = 0;
  Object.assign(server, { state: OFF, reached: true });
  Object.assign(phone, { permission: "granted", held: null, hangs: false, lettingGo: "well" });
  noteTurnedOff(false);
  clock.now_ms += 24 * 3_600_000;
  desk.value = { ask, card: { paired_ms: 1 }, now_ms: () => clock.now_ms } as unknown as typeof desk.value;
}

export function leave(): void {
  desk.value = null;
  reminders.value = null;
  remindersFail.value = false;
  vi.useRealTimers();
  vi.unstubAllGlobals();
}
