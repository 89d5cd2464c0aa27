// The composition root: everything that touches the browser is made here and handed to what needs it.
import { render } from "preact";
import { newerApp, whenSafe } from "../state/newer-app.ts";
import { heedTab, openAtStart, type Surroundings, wake } from "../state/opening.ts";
import { boardUnsaved } from "../state/recording.ts";
import { otherTabs } from "../state/tabs.ts";
import { IndexedBook } from "../storage/indexed.ts";
import { IndexedShelf } from "../storage/shelf.ts";
import { askLater, syncLater } from "../sync/later.ts";
import { App } from "./app.tsx";
import { noticeTyping } from "./half-typed.ts";
import { routeBy } from "./router.ts";
import "./style.css";
import { followTheme } from "./theme.ts";

/** How long the very first screen waits for the server's greeting. */
const GREETING_LIMIT_MS = 3000;

const now_ms = () => Date.now();
const reload = () => location.replace(location.href);
const warnings = {
  onOutdated: () => {
    newerApp.value = { needed: true, take: () => whenSafe(reload) };
  },
};
const fetchHere: typeof fetch = (input, init) => fetch(input, init);

const around: Surroundings = {
  shelf: new IndexedShelf(warnings),
  bookOf: (holding) => new IndexedBook(holding, warnings),
  shore: ownShore(),
  ask: askAt(),
  askBriefly: askAt(GREETING_LIMIT_MS),
  startSync: (tools) => syncLater(tools, () => import("../sync/picture-loop.ts").then((it) => it.startSync)),
  now_ms,
  random: () => Math.random(),
  randomBytes: (bytes) => {
    crypto.getRandomValues(bytes);
  },
  zone: () => Intl.DateTimeFormat().resolvedOptions().timeZone,
  locks: navigator.locks ?? null,
  visible: () => document.visibilityState === "visible",
  storageManager: navigator.storage,
  tabs: otherTabs(),
  // The name of this script holds a hash of it.
  reader: import.meta.url,
  rest: () => new Promise((done) => setTimeout(done)),
  keeping: () => import("../state/keeping.ts"),
};

function askAt(limit_ms?: number) {
  return askLater(() => import("../sync/server.ts").then((it) => it.serverAt(fetchHere, now_ms, limit_ms)));
}

/** Browsers that block a site's storage throw at the mere word. */
function ownShore(): Storage | null {
  try {
    return localStorage;
  } catch {
    return null;
  }
}

followTheme(document, matchMedia("(prefers-color-scheme: dark)"));
routeBy(window);
noticeTyping(document);
around.tabs.listen((message) => void heedTab(around, message));
document.addEventListener("visibilitychange", () => {
  if (around.visible()) void wake(around);
  else boardUnsaved();
});
window.addEventListener("pagehide", boardUnsaved);
window.addEventListener("pageshow", (event) => {
  if (event.persisted) void wake(around);
});
window.addEventListener("online", () => void wake(around));

const root = document.getElementById("app");
if (root) render(<App />, root);
void openAtStart(around);
void import("./update-bridge.ts").then((it) => it.bridgeUpdates(window));
