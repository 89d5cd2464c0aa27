import type { Refusal } from "./port.ts";

/** A picture as it was made on this phone: small, and without the place where it was taken. */
export interface Picture {
  /** 64 hex digits over the bytes; its name everywhere. */
  readonly sha256: string;
  readonly type: string;
  readonly bytes: ArrayBuffer;
}

/**
 * How far a picture is on its way. sent_epoch: the history of the server that has it; null: none was told so.
 * refusal: the words of a server that will not take it; it stays on this phone.
 */
export interface PictureWay {
  readonly sha256: string;
  /** Pictures go out in the order in which they were kept. */
  readonly n: number;
  readonly sent_epoch: string | null;
  readonly refusal: Refusal | null;
}

/**
 * The pictures of one holding that were taken on this phone. They lie apart from the book: a full or broken store of
 * pictures never stands in the way of an entry. No call deletes or changes a picture, and each may be repeated.
 */
export interface PictureStorage {
  readonly holding: string;
  /** Resolves once the picture is durable and was read back; rejects with NotSaved. One that is held keeps its way. */
  keep(picture: Picture): Promise<void>;
  read(sha256: string): Promise<Picture | null>;
  way(sha256: string): Promise<PictureWay | null>;
  /** Names of those that a server with this history was not given and did not refuse, in the order of keeping. */
  unsent(epoch: string): Promise<string[]>;
  markSent(sha256: string, epoch: string): Promise<void>;
  refuse(sha256: string, refusal: Refusal): Promise<void>;
  /** The server's history is another one: all are to be sent again. */
  forgetSent(): Promise<void>;
  /** Told after each write of this page; returns the way to stop. */
  watch(told: () => void): () => void;
  close(): void;
}

export function isUnsent(way: PictureWay, epoch: string): boolean {
  return way.refusal === null && way.sent_epoch !== epoch;
}
