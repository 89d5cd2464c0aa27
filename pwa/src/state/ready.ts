// Whether this phone can do what it is asked to: keep the app, keep the book, be reminded, reach the server.
import { serverClock } from "../sync/health.ts";
import { me } from "../sync/pairing.ts";
import { openDesk } from "./desk.ts";
import { workerFault } from "./newer-app.ts";
import { kept, storageFault } from "./opening.ts";
import { reminders, thisBrowser } from "./reminders.ts";

/** Times further off than this are put right where they are shown; the rest of the app says so too. */
export const CLOCK_LIMIT_MS = 120_000;

/** state: amiss where something is to be done, open where nothing is lost yet. why: which words say it. */
export interface Check {
  readonly what: "secure" | "worker" | "storage" | "installed" | "push" | "server" | "clock";
  readonly state: "well" | "amiss" | "open";
  readonly why: string;
  /** Of the clock: the server's minus this phone's. */
  readonly offset_ms?: number;
}

/** All checks, in the order in which one needs another. page: the browser's window. */
export async function checkPhone(page: typeof globalThis = globalThis): Promise<readonly Check[]> {
  const [worker, [server, clock]] = await Promise.all([checkWorker(page), checkServer()]);
  const push = server.why === "revoked" ? checkPushRevoked(page) : checkPush(page);
  return [checkSecure(page), worker, checkStorage(), checkInstalled(page), push, server, clock];
}

function checkSecure(page: typeof globalThis): Check {
  const well = page.isSecureContext;
  return { what: "secure", state: well ? "well" : "amiss", why: well ? "well" : "plain" };
}

async function checkWorker(page: typeof globalThis): Promise<Check> {
  const container = page.navigator.serviceWorker;
  if (!container) return amiss("worker", page.isSecureContext ? "none" : "plain");
  const registration = await container.getRegistration("/").catch(() => undefined);
  if (registration?.active) return { what: "worker", state: "well", why: "well" };
  const fault = workerFault.value;
  if (fault === null) return { what: "worker", state: "open", why: "waiting" };
  return amiss("worker", /SecurityError|certificate|SSL/i.test(fault) ? "untrusted" : "failed");
}

function checkStorage(): Check {
  if (storageFault.value !== null) return amiss("storage", "cannot");
  if (kept.value === true) return { what: "storage", state: "well", why: "well" };
  return { what: "storage", state: "open", why: kept.value === false ? "unprotected" : "unsaid" };
}

function checkInstalled(page: typeof globalThis): Check {
  const alone = "standalone" in page.navigator && page.navigator.standalone === true;
  const well = alone || page.matchMedia("(display-mode: standalone)").matches;
  return { what: "installed", state: well ? "well" : "open", why: well ? "well" : "tab" };
}

function checkPush(page: typeof globalThis): Check {
  const browser = thisBrowser(page);
  if (!browser) return { what: "push", state: "open", why: "none" };
  if (browser.permission() === "denied") return amiss("push", "blocked");
  const state = reminders.value;
  if (!state?.wishes) return { what: "push", state: "open", why: "off" };
  const broken = state.lost || !state.on || state.working === false;
  return broken ? amiss("push", "broken") : { what: "push", state: "well", why: "well" };
}

/** What this phone was told before its pairing ended says nothing of now. */
function checkPushRevoked(page: typeof globalThis): Check {
  const found = checkPush(page);
  return found.why === "none" || found.why === "blocked" ? found : amiss("push", "revoked");
}

async function checkServer(): Promise<readonly [Check, Check]> {
  const answer = await serverClock(openDesk().ask);
  const unknown: Check = { what: "clock", state: "open", why: "unsaid" };
  if (answer.kind === "not_ours") return [amiss("server", "not_ours"), unknown];
  if (answer.kind !== "ok") return [amiss("server", "away"), unknown];
  const offset_ms = answer.value - (answer.sent_ms + answer.got_ms) / 2;
  const off = Math.abs(offset_ms) > CLOCK_LIMIT_MS;
  return [
    await checkPairing(),
    { what: "clock", state: off ? "amiss" : "well", why: off ? "off" : "well", offset_ms },
  ];
}

/** Of a server that answers anyone: whether it still knows this phone, which only it can say. */
async function checkPairing(): Promise<Check> {
  const { ask, card } = openDesk();
  if (card.paired_ms === null) return { what: "server", state: "open", why: "unpaired" };
  const answer = await me(ask);
  if (answer.kind === "refused" && answer.status === 401) return amiss("server", "revoked");
  if (answer.kind === "not_ours") return amiss("server", "not_ours");
  if (answer.kind === "unreachable") return amiss("server", "away");
  return { what: "server", state: "well", why: "well" };
}

function amiss(what: Check["what"], why: string): Check {
  return { what, state: "amiss", why };
}
