// Reminders, as this phone and the server speak of them.
import { NotOurs } from "./answers.ts";
import type { Answer, Ask } from "./server.ts";

/** What a keeper wants to be told on this phone, and when; times of day as "07:00". */
export interface Wishes {
  readonly what: readonly string[];
  readonly at: string;
  readonly evening: string;
  readonly quiet: { readonly from: string; readonly until: string } | null;
}

/** working: whether the last message was taken; null before the first. */
export interface Reminding {
  readonly on: boolean;
  readonly working: boolean | null;
  readonly wishes: Wishes | null;
  readonly last: { readonly at: string; readonly words: string } | null;
}

const PLACE = "/api/v1/reminders/subscription";

export function reminderKey(ask: Ask): Promise<Answer<string>> {
  return ask({ method: "GET", path: "/api/v1/reminders/key", parse: (value) => text(part(value).key) });
}

export function remindingNow(ask: Ask): Promise<Answer<Reminding>> {
  return ask({ method: "GET", path: PLACE, parse: parseReminding });
}

/** Without wishes the server keeps those it has. */
export function startReminding(
  ask: Ask,
  subscription: PushSubscriptionJSON,
  wishes: Wishes | null,
): Promise<Answer<Reminding>> {
  const body = JSON.stringify(wishes ? { subscription, wishes } : { subscription });
  return ask({ method: "POST", path: PLACE, body, parse: parseReminding });
}

export function stopReminding(ask: Ask): Promise<Answer<Reminding>> {
  return ask({ method: "DELETE", path: PLACE, parse: parseReminding });
}

export interface Tried extends Reminding {
  readonly sent: boolean;
  readonly words: string;
}

export function tryReminder(ask: Ask): Promise<Answer<Tried>> {
  return ask({
    method: "POST",
    path: "/api/v1/reminders/try",
    body: "{}",
    parse: (value) => {
      const { sent, words } = part(value);
      return { ...parseReminding(value), sent: sent === true, words: text(words) };
    },
  });
}

export function parseReminding(value: unknown): Reminding {
  const { on, working, wishes, last } = part(value);
  if (typeof on !== "boolean") throw new NotOurs();
  return {
    on,
    working: typeof working === "boolean" ? working : null,
    wishes: wishes === null ? null : parseWishes(wishes),
    last: last === null ? null : { at: text(part(last).at), words: text(part(last).words) },
  };
}

function parseWishes(value: unknown): Wishes {
  const { what, at, evening, quiet } = part(value);
  if (!Array.isArray(what)) throw new NotOurs();
  return {
    what: what.map(text),
    at: text(at),
    evening: text(evening),
    quiet: quiet === null ? null : { from: text(part(quiet).from), until: text(part(quiet).until) },
  };
}

function part(value: unknown): Record<string, unknown> {
  if (typeof value !== "object" || value === null || Array.isArray(value)) throw new NotOurs();
  return { ...value };
}

function text(value: unknown): string {
  if (typeof value !== "string") throw new NotOurs();
  return value;
}
