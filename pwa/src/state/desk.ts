import { signal } from "@preact/signals";
import type { HoldingCard } from "../storage/holding-card.ts";
import type { Lifeboat } from "../storage/lifeboat.ts";
import type { BookStorage } from "../storage/port.ts";
import type { IdMaker } from "../storage/uuid7.ts";
import type { Sync } from "../sync/loop.ts";
import type { Ask } from "../sync/server.ts";

/** What lies open on the desk: one holding's book and all that writing in it needs. Put there by the opening. */
export interface Desk {
  readonly card: HoldingCard;
  readonly storage: BookStorage;
  readonly lifeboat: Lifeboat;
  readonly ids: IdMaker;
  readonly now_ms: () => number;
  /** The phone's IANA zone. */
  readonly zone: () => string;
  /** The last known server clock minus this phone's. */
  readonly skew_ms: () => number | null;
  /** Null until the holding is paired with a server. */
  readonly sync: Sync | null;
  /** The way to the server, for its reports. */
  readonly ask: Ask;
  /** Asks the browser, once and after a first save, not to clear this app's storage. */
  readonly askToKeep: () => void;
}

/** Null until a book was opened. */
export const desk = signal<Desk | null>(null);

/** The desk, for acts that only exist on a screen whose book is open. */
export function openDesk(): Desk {
  if (!desk.value) throw new Error("no book is open");
  return desk.value;
}
