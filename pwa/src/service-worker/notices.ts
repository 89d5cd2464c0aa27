// What a message from the server is shown as. Every message is shown, also one that cannot be read: browsers end the
// subscription of an app that shows nothing.
import { unreadNotice } from "../app/words/reminders.ts";

/** renotify: a newer one of the same tag takes the older one's place and sounds again; without a tag browsers refuse it. */
export interface Shown {
  readonly title: string;
  readonly options: {
    readonly body: string;
    readonly tag: string;
    readonly renotify: boolean;
    readonly data: string;
  };
}

const HOME = "/due";

/** A message in the declarative shape, {web_push: 8030, notification: {title, body, navigate, tag}}. */
export function noticeOf(text: string | null, origin: string): Shown {
  try {
    const message: unknown = JSON.parse(text ?? "");
    const { title, body, navigate, tag } = partOf(partOf(message).notification);
    if (typeof title === "string" && title !== "") {
      const told = { body: textOf(body), tag: textOf(tag), data: pathOf(navigate, origin) };
      return { title, options: { ...told, renotify: told.tag !== "" } };
    }
  } catch {
    // shown below
  }
  const { title, body } = unreadNotice;
  return { title, options: { body, tag: "unread", renotify: true, data: HOME } };
}

/** Where a click leads: a page of this app, whatever the message says. */
export function pathOf(address: unknown, origin: string): string {
  if (typeof address !== "string" || !URL.canParse(address, origin)) return HOME;
  const url = new URL(address, origin);
  return url.origin === origin ? url.pathname + url.search : HOME;
}

function partOf(value: unknown): Record<string, unknown> {
  return typeof value === "object" && value !== null ? { ...value } : {};
}

const textOf = (value: unknown) => (typeof value === "string" ? value : "");
