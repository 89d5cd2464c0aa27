import { notSaved } from "../storage/not-saved.ts";
import type { PictureStorage } from "../storage/pictures.ts";
import { picturesOf } from "../storage/pictures-indexed.ts";
import type { Refusal } from "../storage/port.ts";
import { hashOfBytes } from "../sync/content-hash.ts";
import { record } from "./actions.ts";
import { bookNow_ms, inBook } from "./book-clock.ts";
import { desk, openDesk } from "./desk.ts";
import { type MadePicture, makePicture, NoPicture } from "./picture-making.ts";

/**
 * What there is to see of a picture. here: only this phone has it; sent: the server has it too; refused: the server
 * will not take it; server: another phone took it, and the server may give it; nowhere: it cannot be asked.
 */
export type ShownPicture =
  | { readonly kind: "here" | "sent"; readonly url: string }
  | { readonly kind: "refused"; readonly url: string; readonly refusal: Refusal }
  | { readonly kind: "server"; readonly url: string }
  | { readonly kind: "nowhere" };

function ours(): PictureStorage {
  return picturesOf(openDesk().card.id);
}

/** What became of a photo: kept, or why not; then nothing was written. */
export type Taken = "kept" | "unread" | "full" | "failed";

/** Whether a picture was taken just now, or is an older one out of the phone's gallery. */
export type Occasion = "now" | "before";

/**
 * Makes a picture small, keeps it on this phone, and only then writes down that there is one: of now, or of the time
 * its file was written, which the keeper may set right.
 */
export async function takePicture(
  file: Blob,
  about: string,
  occasion: Occasion = "now",
  make: (file: Blob) => Promise<MadePicture> = makePicture,
): Promise<Taken> {
  const now_ms = bookNow_ms();
  const written_ms = occasion === "before" && file instanceof File ? inBook(file.lastModified) : now_ms;
  const at = new Date(Math.min(written_ms, now_ms));
  try {
    const pictures = ours();
    const { bytes, type, width, height } = await make(file);
    const sha256 = await hashOfBytes(bytes);
    await pictures.keep({ sha256, type, bytes });
    await record("photo", { about, sha256, type, width, height }, { at });
    return "kept";
  } catch (fault) {
    if (fault instanceof NoPicture) return "unread";
    return notSaved(fault).code === "full" ? "full" : "failed";
  }
}

/** Tells what there is to see of a picture, now and when it changes, until the way to stop is called. */
export function watchPicture(sha256: string, tell: (shown: ShownPicture) => void): () => void {
  let isOver = false;
  let url: string | null = null;

  async function look(pictures: PictureStorage): Promise<void> {
    const picture = url === null ? await pictures.read(sha256) : null;
    const way = await pictures.way(sha256);
    if (isOver) return;
    if (picture && url === null) url = URL.createObjectURL(new Blob([picture.bytes], { type: picture.type }));
    if (url === null) tell(elsewhere(sha256));
    else if (way?.refusal) tell({ kind: "refused", url, refusal: way.refusal });
    else tell({ kind: way?.sent_epoch ? "sent" : "here", url });
  }

  const pictures = ours();
  const again = () => void look(pictures).catch(() => isOver || tell(elsewhere(sha256)));
  const stopWatching = pictures.watch(again);
  again();
  return () => {
    isOver = true;
    stopWatching();
    if (url !== null) URL.revokeObjectURL(url);
  };
}

/** The address never changes what it gives, so the browser keeps what it once got. */
function elsewhere(sha256: string): ShownPicture {
  return desk.value?.sync ? { kind: "server", url: `/api/v1/photos/${sha256}` } : { kind: "nowhere" };
}
