// Reminders, as this phone and the server speak of them.
import { list, NotOurs, object, orNull, text } from "./answer-parts.ts";
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
  return ask({ method: "GET", path: "/api/v1/reminders/key", parse: (value) => text(object(value).key) });
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
      const { sent, words } = object(value);
      return { ...parseReminding(value), sent: sent === true, words: text(words) };
    },
  });
}

export function parseReminding(value: unknown): Reminding {
  const { on, working, wishes, last } = object(value);
  if (typeof on !== "boolean") throw new NotOurs();
  return {
    on,
    working: typeof working === "boolean" ? working : null,
    wishes: orNull(wishes, parseWishes),
    last: orNull(last, (one) => ({ at: text(object(one).at), words: text(object(one).words) })),
  };
}

function parseWishes(value: unknown): Wishes {
  const { what, at, evening, quiet } = object(value);
  return {
    what: list(what).map(text),
    at: text(at),
    evening: text(evening),
    quiet: orNull(quiet, (one) => ({ from: text(object(one).from), until: text(object(one).until) })),
  };
}
