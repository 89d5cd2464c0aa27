import { signal } from "@preact/signals";
import type { HoldingCard } from "../storage/holding-card.ts";
import { askToKeep, isKept, type Kept, type Room, roomLeft } from "../storage/keep.ts";
import { Lifeboat } from "../storage/lifeboat.ts";
import { type NotSavedCode, notSaved } from "../storage/not-saved.ts";
import type { BookStorage, Change } from "../storage/port.ts";
import type { Shelf } from "../storage/shelf.ts";
import { IdMaker, type RandomBytes } from "../storage/uuid7.ts";
import type { PairingAnswer } from "../sync/answers.ts";
import { UNREACHABLE } from "../sync/later.ts";
import { inTurn, type Locks } from "../sync/lock.ts";
import type { Sync, SyncState, SyncTools } from "../sync/loop.ts";
import type { Answer, Ask } from "../sync/server.ts";
import { cardFrom, newCard, sameStanding } from "./cards.ts";
import { desk } from "./desk.ts";
import { holdStored, unsavedEntries } from "./held.ts";
import { ownSync } from "./own-sync.ts";
import { type Reader, read } from "./reading.ts";
import { recent } from "./recording.ts";
import type { Tabs } from "./tabs.ts";
import { type Trickle, trickle } from "./trickle.ts";

/** All that a book needs from the browser; the composition root hands it in. */
export interface Surroundings extends Reader {
  readonly shelf: Shelf;
  readonly bookOf: (holding: string) => BookStorage;
  readonly shore: Storage | null;
  readonly ask: Ask;
  /** The same, for the first start: how long a screen may wait for the server's greeting. */
  readonly askBriefly: Ask;
  readonly startSync: (tools: SyncTools) => Sync;
  readonly now_ms: () => number;
  readonly random: () => number;
  readonly randomBytes: RandomBytes;
  readonly zone: () => string;
  readonly locks: Locks;
  readonly visible: () => boolean;
  readonly storageManager: StorageManager | undefined;
  readonly tabs: Tabs;
}

/** Why this browser cannot keep a book now; null while it can. A tally must not be started then. */
export const storageFault = signal<NotSavedCode | null>(null);
/** Whether the browser promised to keep this app's storage; null: it does not say, or was not asked yet. */
export const kept = signal<Kept>(null);
/** What this app's storage takes and may take; null where the browser does not say. */
export const room = signal<Room | null>(null);
/** The last news of sync; null until the holding is paired. */
export const syncState = signal<SyncState | null>(null);
/** Books of other holdings on this phone. Nothing of them flows into the open one; they can be saved as a copy. */
export const otherBooks = signal<readonly HoldingCard[]>([]);

/** Who this browser is to the server; only the very first start waits for it, and for its script. */
async function me(ask: Ask): Promise<Answer<PairingAnswer>> {
  const pairing = await import("../sync/pairing.ts").catch(() => null);
  return pairing ? pairing.me(ask) : UNREACHABLE;
}

/** More rows at once come from a server, not from a tap. */
const A_FEW = 20;

let given: Surroundings | null = null;
let close = async (): Promise<void> => {};
let keepAsked = false;
let opening: Promise<void> | null = null;
let laid: Promise<unknown> = Promise.resolve();

/** One after another: two books laid at once would leave a sync that nobody stops. */
function afterTheLast<T>(work: () => Promise<T>): Promise<T> {
  const done = laid.then(work);
  laid = done.catch(() => undefined);
  return done;
}

/** What the app was opened with. */
export function surroundings(): Surroundings {
  if (!given) throw new Error("nothing was opened yet");
  return given;
}

/**
 * Opens the book of last time; on the first start the server's own, else a new one that is not paired yet. A page that
 * comes back into sight meanwhile waits for the same opening.
 */
export function openAtStart(around: Surroundings): Promise<void> {
  given = around;
  opening ??= open(around).finally(() => {
    opening = null;
  });
  return opening;
}

async function open(around: Surroundings): Promise<void> {
  try {
    if (!(await openKnown(around))) await inTurn(around.locks, () => begin(around));
    desk.value?.sync?.ask("start");
  } catch (fault) {
    storageFault.value = notSaved(fault).code;
  }
}

/** Whether a book lay open last time: then it does again. */
async function openKnown(around: Surroundings): Promise<boolean> {
  const card = await around.shelf.open();
  if (!card) return false;
  await lay(around, card, "unknown", "to read at least");
  if (card.paired_ms === null) void introduce(around);
  return true;
}

async function begin(around: Surroundings): Promise<void> {
  if (await openKnown(around)) return; // another tab began one while this one waited for its turn
  const answer = await me(around.askBriefly);
  if (answer.kind === "ok") await lay(around, cardFrom(answer.value, null, around.now_ms()), "greeted");
  else await lay(around, newCard(new IdMaker(around.now_ms, around.randomBytes)), "unknown");
}

/**
 * Asks the server who this browser is. Another holding's server opens that holding's own book. The greeting may
 * sign the browser in anew, so no round of sync runs until the book has changed with it.
 */
export async function introduce(around: Surroundings): Promise<void> {
  try {
    await inTurn(around.locks, async () => {
      const answer = await me(around.ask);
      if (answer.kind === "ok") await adopt(around, answer.value);
    });
  } catch (fault) {
    storageFault.value = notSaved(fault).code;
  }
  desk.value?.sync?.ask("start");
}

/** Takes up what a pairing or a greeting says. A new holding never gets what another one's book holds. */
export function adopt(around: Surroundings, answer: PairingAnswer): Promise<void> {
  return afterTheLast(() => takeUp(around, answer));
}

async function takeUp(around: Surroundings, answer: PairingAnswer): Promise<void> {
  const before = desk.value?.card ?? null;
  const known = (await around.shelf.cards()).find((card) => card.id === answer.holding.id) ?? null;
  const card = cardFrom(answer, known, around.now_ms());
  if (known && before?.id === card.id && sameStanding(known, card)) return;
  if (before && before.id !== card.id && before.paired_ms === null && desk.value) {
    const empty = (await desk.value.storage.all()).length === 0;
    if (empty) await around.shelf.remove(before.id);
  }
  await layNow(around, card, "greeted", "to write");
  around.tabs.tell({ kind: "opened", holding: card.id });
}

/**
 * Puts a holding's book on the desk: its entries in memory, its sync ready to be asked once the lock is free.
 * `server` says whether the server has just named this holding as its own. A known book is laid to read, with the
 * fault told, where nothing can be written now.
 */
export function lay(
  around: Surroundings,
  card: HoldingCard,
  server: Greeted,
  need: Need = "to write",
): Promise<void> {
  return afterTheLast(() => layNow(around, card, server, need));
}

type Greeted = "greeted" | "unknown";
type Need = "to write" | "to read at least";

async function layNow(around: Surroundings, card: HoldingCard, server: Greeted, need: Need): Promise<void> {
  const sameBook = desk.value?.card.id === card.id;
  const storage = sameBook && desk.value ? desk.value.storage : around.bookOf(card.id);
  const sum = sameBook ? null : storage.keptSum(around.reader).catch(() => null);
  // Before the old book is closed: a browser that fails now keeps showing it.
  const fault = await storage.probe().then(
    () => null,
    (found) => notSaved(found),
  );
  if (fault && need === "to write") throw fault;
  await close();
  if (!fault) await around.shelf.put(card);
  const lifeboat = new Lifeboat(around.shore, card.id);
  const landed = await lifeboat.land(storage).catch(() => 0); // those aboard stay aboard and on the screen
  const storedSkew_ms = await storage.skew();
  const unsaved = () => [...(sameBook ? unsavedEntries() : []), ...lifeboat.aboard()];
  const reading = await read(storage, landed > 0 ? null : await sum, unsaved, around);
  const ids = new IdMaker(around.now_ms, around.randomBytes);
  storageFault.value = fault?.code ?? null;
  for (const device of [card.device, ...card.earlier_devices]) {
    const latest = reading.latest[device];
    if (latest) ids.startAfter(latest);
  }
  if (!sameBook) recent.value = [];
  const pages = trickle(holdStored, around.now_ms);
  const stopWatching = storage.watch((change) => void heed(around, storage, pages, change));
  const sync =
    card.paired_ms === null
      ? null
      : ownSync(around, card, storage, server === "greeted", {
          state: (state) => {
            pages.flush(); // what was read is on the screen before it is said that all was
            syncState.value = state;
          },
          other: (answer) => void change(around, answer),
        });
  syncState.value = sync?.state() ?? null;
  close = async () => {
    await sync?.stop();
    reading.stop();
    stopWatching();
    pages.flush();
  };
  desk.value = {
    card,
    storage,
    lifeboat,
    ids,
    now_ms: around.now_ms,
    zone: around.zone,
    skew_ms: () => sync?.state().skew_ms ?? storedSkew_ms,
    sync,
    ask: around.ask,
    askToKeep: () => void askOnce(around),
  };
  reading.goOn();
  kept.value = await isKept(around.storageManager);
  room.value = await roomLeft(around.storageManager);
  otherBooks.value = (await around.shelf.cards()).filter((other) => other.id !== card.id);
  around.zone(); // the first answer takes long, and must not be waited for in a tap
}

/** The page is looked at again: storage may have died meanwhile or work again, and the server may be near. */
export async function wake(around: Surroundings): Promise<void> {
  const open = desk.value;
  if (!open) {
    await openAtStart(around);
    return;
  }
  if (open.sync) open.sync.ask("visible");
  else void introduce(around);
  try {
    await open.storage.probe();
    storageFault.value = null;
    await open.lifeboat.land(open.storage);
    room.value = await roomLeft(around.storageManager);
  } catch (fault) {
    storageFault.value = notSaved(fault).code;
  }
}

/** What another tab did. */
export async function heedTab(around: Surroundings, message: Parameters<Tabs["tell"]>[0]): Promise<void> {
  const open = desk.value;
  if (message.kind === "opened") {
    const card = await around.shelf.open();
    if (card && card.id === message.holding) await lay(around, card, "unknown");
    desk.value?.sync?.ask("start");
    return;
  }
  if (open?.card.id !== message.holding) return;
  const { storage } = open;
  const rows = message.kind === "rows" ? await storage.read(message.ids) : await storage.all();
  if (desk.value?.storage === storage) holdStored(rows); // another book may have been opened meanwhile
}

async function heed(
  around: Surroundings,
  storage: BookStorage,
  pages: Trickle,
  change: Change,
): Promise<void> {
  const { holding } = storage;
  if (change.kind === "rows" && change.rows.length > A_FEW) pages.add(change.rows);
  else {
    pages.flush(); // what came before must not overwrite what comes now
    const rows = change.kind === "rows" ? change.rows : await storage.all();
    if (desk.value?.storage === storage) holdStored(rows);
  }
  around.tabs.tell(
    change.kind === "rows"
      ? { kind: "rows", holding, ids: change.rows.map((row) => row.id) }
      : { kind: "reset", holding },
  );
}

/** Not awaited by the greeting: the new book waits for its round to end. Until then nothing of the old one is offered. */
async function change(around: Surroundings, answer: PairingAnswer): Promise<void> {
  try {
    await adopt(around, answer);
    desk.value?.sync?.ask("start");
  } catch (fault) {
    storageFault.value = notSaved(fault).code;
  }
}

async function askOnce(around: Surroundings): Promise<void> {
  if (keepAsked) return;
  keepAsked = true;
  kept.value = await askToKeep(around.storageManager);
  room.value = await roomLeft(around.storageManager);
}
