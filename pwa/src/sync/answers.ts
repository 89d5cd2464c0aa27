import type { Entry } from "../book/entries.ts";
import type { Role } from "../storage/holding-card.ts";
import type { Refusal } from "../storage/port.ts";
import { list, NotOurs, object, oneOf, text, whole } from "./answer-parts.ts";

// What the server's replies say, read strictly: anything else is not our server's answer.

export interface PushResult {
  readonly id: string;
  readonly status: "stored" | "duplicate" | "clash" | "purged";
}

export interface PushAnswer {
  readonly server_ms: number;
  readonly results: readonly PushResult[];
}

export interface PulledRow {
  readonly position: number;
  readonly entry: Entry;
}

export interface PullAnswer {
  readonly server_ms: number;
  readonly entries: readonly PulledRow[];
  readonly cursor: string;
  readonly more: boolean;
  /** The server's program; null: one from before it told. */
  readonly version: string | null;
}

/** Who this device is to the server: the answer of `pair` and of `me`. */
export interface PairingAnswer {
  readonly device: string;
  readonly role: Role;
  readonly holding: { readonly id: string; readonly name: string };
  readonly demo: boolean;
}

export function parsePushAnswer(value: unknown): PushAnswer {
  const answer = object(value);
  const results = list(answer.results).map((part): PushResult => {
    const result = object(part);
    return {
      id: text(result.id),
      status: oneOf(result.status, ["stored", "duplicate", "clash", "purged"] as const),
    };
  });
  return { server_ms: whole(answer.server_ms), results };
}

/** Throws where the answer is not about the picture that was sent. */
export function parsePictureAnswer(value: unknown, sha256: string): void {
  if (object(value).sha256 !== sha256) throw new NotOurs();
}

export function parsePullAnswer(value: unknown): PullAnswer {
  const answer = object(value);
  const entries = list(answer.entries).map((part): PulledRow => {
    const row = object(part);
    const entry = object(row.entry);
    text(entry.id);
    return { position: whole(row.position), entry: entry as unknown as Entry };
  });
  if (typeof answer.more !== "boolean") throw new NotOurs();
  const { more, version } = answer;
  return {
    server_ms: whole(answer.server_ms),
    entries,
    cursor: text(answer.cursor),
    more,
    version: typeof version === "string" ? version : null,
  };
}

export function parsePairingAnswer(value: unknown): PairingAnswer {
  const answer = object(value);
  const holding = object(answer.holding);
  if (typeof answer.demo !== "boolean") throw new NotOurs();
  return {
    device: text(answer.device),
    role: oneOf(answer.role, ["keeper", "helper", "reader"] as const),
    holding: { id: text(holding.id), name: typeof holding.name === "string" ? holding.name : "" },
    demo: answer.demo,
  };
}

/** The answer of `me`: null where the server does not know this browser. */
export function parseOwnName(value: unknown): PairingAnswer | null {
  return object(value).device === null ? null : parsePairingAnswer(value);
}

export function parseRefusal(value: unknown): Refusal {
  const error = object(object(value).error);
  const words = { code: text(error.code), message: text(error.message), remedy: String(error.remedy ?? "") };
  const isOfAll = (error.field === "v" || error.field === "entries") && error.index === undefined;
  return isOfAll ? { ...words, ofAll: true } : words;
}
