/** What the tabs of one browser tell each other. */
export type TabMessage =
  | { readonly kind: "rows"; readonly holding: string; readonly ids: readonly string[] }
  | { readonly kind: "reset"; readonly holding: string }
  /** Another holding lies open now, or the same one under a new pairing. */
  | { readonly kind: "opened"; readonly holding: string };

export interface Tabs {
  tell(message: TabMessage): void;
  listen(told: (message: TabMessage) => void): void;
}

const NAME = "broodline-tabs";

/** The other tabs of this app; nobody where the browser has no channels. */
export function otherTabs(): Tabs {
  if (typeof BroadcastChannel === "undefined") return { tell() {}, listen() {} };
  const channel = new BroadcastChannel(NAME);
  return {
    tell: (message) => channel.postMessage(message),
    // Only this app's own tabs can post here, but an older one may say less: what is unknown is passed over.
    listen: (told) =>
      channel.addEventListener("message", (event: MessageEvent<TabMessage>) => told(event.data)),
  };
}
