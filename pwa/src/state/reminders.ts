// Whether this phone is reminded, and the acts that turn it on, off and about. Asked of phone and server at each start
// and after hours in the background, because phones forget a subscription without saying so.
import { signal } from "@preact/signals";
import {
  type Reminding,
  reminderKey,
  remindingNow,
  startReminding,
  stopReminding,
  tryReminder,
} from "../sync/reminders.ts";
import type { Answer } from "../sync/server.ts";
import { remindersFail } from "./connection.ts";
import { desk, openDesk } from "./desk.ts";
import { isTurnedOff, noteTurnedOff } from "./turned-off.ts";

/** What a keeper wants to be told, and when. */
export type Wishes = NonNullable<Reminding["wishes"]>;

/** A push service that is not reached never answers. */
export const SUBSCRIBE_LIMIT_MS = 15_000;

/** lost: the server reminds a phone that has forgotten its subscription. */
export interface Reminders extends Reminding {
  readonly lost: boolean;
}

/** Null until the server was asked. */
export const reminders = signal<Reminders | null>(null);

const OFF: Reminders = { on: false, working: null, wishes: null, last: null, lost: false };

/** What is known now; Due says it where a keeper counts on reminders that do not come. */
function know(state: Reminders): void {
  reminders.value = state;
  remindersFail.value = state.wishes !== null && (!state.on || state.lost || state.working === false);
}

/** An unpaired phone counts on no reminders. */
export function forget(): void {
  reminders.value = null;
  remindersFail.value = false;
}

/** So long a phone that stays open is trusted to still hold its subscription. */
export const RENEW_AFTER_MS = 6 * 3_600_000;
let renewed_ms = Number.NEGATIVE_INFINITY;

export type Outcome =
  | { readonly kind: "done" | "blocked" | "slow" | "failed" | "away" }
  | { readonly kind: "refused" | "tried"; readonly words: string };

/** The browser's half, as far as it is used. */
export interface Browser {
  readonly permission: () => NotificationPermission;
  readonly allow: () => Promise<NotificationPermission>;
  readonly held: () => Promise<PushSubscription | null>;
  readonly subscribe: (key: string) => Promise<PushSubscription>;
}

/** Null where the browser cannot be reminded; on an iPhone also in a tab instead of the installed app. */
export function thisBrowser(page: typeof globalThis = globalThis): Browser | null {
  const container = page.navigator?.serviceWorker;
  if (!container || !("PushManager" in page) || !("Notification" in page)) return null;
  const manager = async () => (await container.ready).pushManager;
  return {
    permission: () => page.Notification.permission,
    allow: () => page.Notification.requestPermission(),
    held: async () => (await manager()).getSubscription(),
    subscribe: async (key) =>
      (await manager()).subscribe({ userVisibleOnly: true, applicationServerKey: key }),
  };
}

/** Turns reminders on; only after a tap, because browsers ask the keeper then. */
export async function turnOn(browser: Browser, wishes: Wishes | null = null): Promise<Outcome> {
  if ((await browser.allow()) !== "granted") return { kind: "blocked" };
  noteTurnedOff(false);
  return inOrder(() => subscribe(browser, wishes));
}

/** At a start and after a pairing: says again where this phone is reminded, if it is; asks the keeper nothing. */
export function renew(browser: Browser | null = thisBrowser()): Promise<void> {
  return inOrder(() => renewNow(browser));
}

/** The same for an app that comes to the front again after hours: an installed one may stay open for weeks. */
export async function renewOnWake(browser: Browser | null = thisBrowser()): Promise<void> {
  if ((desk.value?.now_ms() ?? 0) - renewed_ms >= RENEW_AFTER_MS) await renew(browser);
}

async function renewNow(browser: Browser | null): Promise<void> {
  const { ask, card, now_ms } = openDesk();
  if (card.paired_ms === null || !browser) return;
  const answer = await remindingNow(ask);
  if (answer.kind !== "ok") return;
  renewed_ms = now_ms();
  const { wishes } = answer.value;
  if (isTurnedOff()) {
    if (wishes || (await browser.held())) await stop(browser); // the server, or the phone, did not hear of it
    return;
  }
  if (browser.permission() !== "granted") {
    if (wishes) know({ ...answer.value, lost: true });
    return;
  }
  if (wishes) take(answer);
  else if (!(await isReminded(browser))) return;
  const outcome = await subscribe(browser, null);
  if (wishes && outcome.kind !== "done" && !(await browser.held())) know({ ...answer.value, lost: true });
}

/** A phone that was paired again is a new device to the server, and still holds what that server gave its push service. */
async function isReminded(browser: Browser): Promise<boolean> {
  const held = await browser.held();
  if (!held) return false;
  const key = await reminderKey(openDesk().ask);
  return key.kind === "ok" && isFor(held, key.value);
}

/** What the server knows, for the screen. */
export async function look(browser: Browser): Promise<void> {
  const answer = await remindingNow(openDesk().ask);
  if (answer.kind !== "ok") return;
  const held = await browser.held();
  know(isTurnedOff() && !held ? OFF : { ...answer.value, lost: answer.value.on && !held });
}

/** Shown at once and told to the server in turn: the next change may come before the answer to this one. */
export function wish(browser: Browser, wishes: Wishes): Promise<Outcome> {
  show(wishes);
  return inOrder(async () => {
    const latest = reminders.value?.wishes ?? wishes;
    const held = await browser.held();
    const outcome = held
      ? take(await startReminding(openDesk().ask, held.toJSON(), latest), latest)
      : await subscribe(browser, latest);
    if (outcome.kind !== "done") await look(browser);
    return outcome;
  });
}

function show(wishes: Wishes): void {
  if (reminders.value) reminders.value = { ...reminders.value, wishes };
}

export function turnOff(browser: Browser): Promise<Outcome> {
  noteTurnedOff(true); // before anything else: the app may be closed before the rest is done
  return inOrder(() => stop(browser));
}

/** The phone lets go first, as then nothing reaches it; a server that was not reached is told at the next start. */
async function stop(browser: Browser): Promise<Outcome> {
  const gone = await inTime(letGo(browser));
  const outcome = take(await stopReminding(openDesk().ask));
  if (!gone || outcome.kind === "done") return outcome;
  know(OFF);
  return { kind: "done" };
}

/** Whether this phone holds no subscription any more. */
async function letGo(browser: Browser): Promise<boolean> {
  try {
    const held = await browser.held();
    return held === null || (await held.unsubscribe());
  } catch {
    return false;
  }
}

export async function tryOut(): Promise<Outcome> {
  const answer = await tryReminder(openDesk().ask);
  const outcome = take(answer);
  return answer.kind === "ok"
    ? { kind: answer.value.sent ? "tried" : "refused", words: answer.value.words }
    : outcome;
}

let telling: Promise<unknown> = Promise.resolve();

/** One act after the other: what a start says again must not reach the server after the keeper turned it off. */
function inOrder<T>(act: () => Promise<T>): Promise<T> {
  const told = telling.then(act);
  telling = told.catch(() => undefined);
  return told;
}

async function subscribe(browser: Browser, wishes: Wishes | null): Promise<Outcome> {
  const { ask } = openDesk();
  const key = await reminderKey(ask);
  if (key.kind !== "ok") return said(key);
  try {
    let held = await browser.held();
    if (held && !isFor(held, key.value)) {
      await held.unsubscribe();
      held = null;
    }
    held ??= await inTime(browser.subscribe(key.value));
    if (!held) return { kind: "slow" };
    return take(await startReminding(ask, held.toJSON(), wishes));
  } catch {
    return { kind: "failed" };
  }
}

/** Whether the subscription was made with this key of the server; a server set up anew has another. */
function isFor(held: PushSubscription, key: string): boolean {
  const own = held.options?.applicationServerKey;
  if (!own) return true; // a browser that does not say
  const binary = String.fromCharCode(...new Uint8Array(own));
  return btoa(binary).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "") === key;
}

function inTime<T>(promise: Promise<T>): Promise<T | null> {
  const late = new Promise<null>((done) => setTimeout(done, SUBSCRIBE_LIMIT_MS, null));
  return Promise.race([promise, late]);
}

/** told: the wishes this answers; those changed meanwhile stay on the screen until they are told too. */
function take(answer: Answer<Reminding>, told?: Wishes): Outcome {
  const shown = reminders.value?.wishes;
  if (answer.kind === "ok") know({ ...answer.value, lost: false });
  if (told && shown && shown !== told) show(shown);
  return said(answer);
}

function said(answer: Answer<unknown>): Outcome {
  if (answer.kind === "ok") return { kind: "done" };
  if (answer.kind !== "refused") return { kind: "away" };
  return { kind: "refused", words: `${answer.refusal.message} ${answer.refusal.remedy}` };
}
