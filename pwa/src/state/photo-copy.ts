import type { Photo } from "../book/bodies.generated.ts";
import { picturesOf } from "../storage/pictures-indexed.ts";
import { type ArchivedFile, archiveOf, filesIn } from "../storage/zip.ts";
import { hashOfBytes } from "../sync/content-hash.ts";
import { openDesk } from "./desk.ts";
import { standing } from "./standing.ts";

/** All photos that lie on this phone, as one file. elsewhere: photos of the book that lie on the server or elsewhere. */
export interface PhotoCopy {
  readonly name: string;
  readonly file: Blob;
  readonly n: number;
  readonly elsewhere: number;
}

/** The photos of the open book, by when they were taken; rejects where this phone's storage does. */
export async function copyPhotos(today: string): Promise<PhotoCopy> {
  const { card } = openDesk();
  const pictures = picturesOf(card.id);
  const files = new Map<string, ArchivedFile>();
  let elsewhere = 0;
  for (const { atMs, body } of [...(standing.value.heads.photo ?? [])].sort((a, b) => a.atMs - b.atMs)) {
    if (files.has(body.sha256)) continue;
    const held = await pictures.read(body.sha256);
    if (held === null) elsewhere += 1;
    else files.set(body.sha256, { name: nameOf(atMs, body), bytes: new Uint8Array(held.bytes) });
  }
  const holding = card.name.replace(/[^\p{L}\p{N}]+/gu, "-").replace(/^-|-$/g, "") || "broodline";
  return {
    name: `${holding}-photos-${today}.zip`,
    file: new Blob(archiveOf([...files.values()]), { type: "application/zip" }),
    n: files.size,
    elsewhere,
  };
}

/** "2026-03-29 1412 3fa9c1d2.jpg": in order of time, and told from the next by the picture itself. */
function nameOf(atMs: number, { sha256, type }: Readonly<Photo>): string {
  const [day, time = ""] = new Date(atMs).toISOString().split("T");
  const ending = { "image/png": "png", "image/webp": "webp" }[type] ?? "jpg";
  return `${day} ${time.slice(0, 2)}${time.slice(3, 5)} ${sha256.slice(0, 8)}.${ending}`;
}

/** kept: photos of this book that are on this phone now. strangers: pictures that no entry of the book names. */
export interface PhotosRead {
  readonly kept: number;
  readonly strangers: number;
}

/**
 * Takes photos in from such files or from pictures by themselves. A picture is known by its bytes, whatever its name:
 * only what an entry of the open book names is kept. Rejects where this phone's storage does.
 */
export async function readPhotos(files: readonly Blob[]): Promise<PhotosRead> {
  const named = new Map((standing.value.heads.photo ?? []).map(({ body }) => [body.sha256, body.type]));
  const pictures = picturesOf(openDesk().card.id);
  let [kept, strangers] = [0, 0];
  for (const file of files) {
    const whole = await file.arrayBuffer();
    for (const { bytes } of filesIn(whole) ?? [{ bytes: new Uint8Array(whole) }]) {
      const own = bytes.slice().buffer;
      const sha256 = await hashOfBytes(own);
      const type = named.get(sha256);
      if (type === undefined) strangers += 1;
      else {
        await pictures.keep({ sha256, type, bytes: own });
        kept += 1;
      }
    }
  }
  return { kept, strangers };
}
