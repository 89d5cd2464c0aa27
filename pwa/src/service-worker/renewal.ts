// A browser may give up a subscription by itself; it tells the worker alone (Push API, "pushsubscriptionchange").
// Reminders then go on at once, and not only from the next time the keeper opens the app.

const PLACE = "/api/v1/reminders/subscription";

export interface Line {
  readonly fetch: (path: string, init?: RequestInit) => Promise<Response>;
  readonly subscribe: (options: PushSubscriptionOptionsInit) => Promise<PushSubscription>;
}

/**
 * Subscribes anew where the keeper is reminded, and says where: without wishes, so that the server keeps those it has.
 * What fails is left to the app's next start, which says the same.
 */
export async function renewSubscription({ fetch, subscribe }: Line): Promise<void> {
  const { wishes } = await told(fetch(PLACE));
  if (!wishes) return;
  const { key } = await told(fetch("/api/v1/reminders/key"));
  if (typeof key !== "string") return;
  const subscription = await subscribe({ userVisibleOnly: true, applicationServerKey: key });
  const headers = { "Content-Type": "application/json" };
  await fetch(PLACE, { method: "POST", headers, body: JSON.stringify({ subscription }) });
}

async function told(asked: Promise<Response>): Promise<Record<string, unknown>> {
  const answer = await asked;
  const value: unknown = answer.ok ? await answer.json() : null;
  return typeof value === "object" && value !== null ? { ...value } : {};
}
