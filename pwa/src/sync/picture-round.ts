import type { PictureStorage } from "../storage/pictures.ts";
import type { BookStorage, Refusal } from "../storage/port.ts";
import { parsePictureAnswer } from "./answers.ts";
import { faultOf, type SyncFault } from "./fault.ts";
import type { Ask } from "./server.ts";

/** Half a megabyte on a line of 100 kbit/s. */
export const PICTURE_LIMIT_MS = 60_000;

export interface PictureRoundTools {
  readonly pictures: PictureStorage;
  readonly storage: BookStorage;
  readonly ask: Ask;
  /** Asked before each picture: whether to go on. */
  readonly goOn: () => boolean;
}

/**
 * Sends pictures that the server does not have, one at a time, and only while no entry waits: the book goes first.
 * One that is refused for its content is set aside with the server's words; any other fault ends the round and the
 * rest waits. Gives the fault, or null. Rejects where this phone's storage does.
 */
export async function sendPictures(tools: PictureRoundTools): Promise<SyncFault | null> {
  const { pictures, storage, ask, goOn } = tools;
  const epoch = epochOf(await storage.cursor());
  if (epoch === null) return null;
  for (const sha256 of await pictures.unsent(epoch)) {
    if (!goOn() || (await storage.waiting()).length > 0) return null;
    if (epochOf(await storage.cursor()) !== epoch) return null;
    const picture = await pictures.read(sha256);
    if (!picture) continue;
    const answer = await ask({
      method: "PUT",
      path: `/api/v1/photos/${sha256}`,
      body: new Blob([picture.bytes], { type: picture.type }),
      limit_ms: PICTURE_LIMIT_MS,
      parse: (value) => parsePictureAnswer(value, sha256),
    });
    if (answer.kind === "ok") await pictures.markSent(sha256, epoch);
    else if (answer.kind === "refused" && isAboutPicture(answer.status, answer.refusal))
      await pictures.refuse(sha256, answer.refusal);
    else return faultOf(answer);
  }
  return null;
}

function isAboutPicture(status: number, { code }: Refusal): boolean {
  return (status === 413 && code === "too_large") || (status === 400 && code === "envelope");
}

/** The first part of a cursor names the server's history. */
function epochOf(cursor: string | null): string | null {
  return cursor?.split(".")[0] || null;
}
