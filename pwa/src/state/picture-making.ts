/**
 * A picture as it came from a camera, drawn anew: turned upright, small, and with nothing in it but what can be seen.
 * Where and with what it was taken (EXIF) stands beside the drawing in the file, and is not drawn.
 */

export const MOST_SIDE_PX = 1600;
/** The server takes 2 MiB; a slow line and a full phone want far less. */
export const MOST_PICTURE_BYTES = 500_000;
/** Cameras of phones stay far below; a larger file would take the page down with it while it is read. */
export const MOST_FILE_BYTES = 60_000_000;
/** From the best to the smallest: longest side in pixels, and the JPEG's quality. */
const TRIES: readonly (readonly [side_px: number, quality: number])[] = [
  [MOST_SIDE_PX, 0.85],
  [MOST_SIDE_PX, 0.7],
  [1280, 0.7],
  [1024, 0.6],
  [640, 0.5],
];
const TYPE = "image/jpeg";

/** The file is no picture that this browser can read, or cannot be made small enough. */
export class NoPicture extends Error {}

export interface MadePicture {
  readonly type: string;
  readonly width: number;
  readonly height: number;
  readonly bytes: ArrayBuffer;
}

/** Rejects with NoPicture. */
export async function makePicture(file: Blob): Promise<MadePicture> {
  if (file.size > MOST_FILE_BYTES) throw new NoPicture("too large a file");
  const seen = await createImageBitmap(file, { imageOrientation: "from-image" }).catch((cause) => {
    throw new NoPicture("not read", { cause });
  });
  try {
    for (const [side_px, quality] of TRIES) {
      const { width, height } = fitted(seen.width, seen.height, side_px);
      const blob = await drawn(seen, width, height, quality);
      if (blob?.type === TYPE && blob.size <= MOST_PICTURE_BYTES)
        return { type: TYPE, width, height, bytes: await blob.arrayBuffer() };
    }
  } finally {
    seen.close();
  }
  throw new NoPicture("not small enough");
}

/** The same shape with its longest side at most so long; never larger than it was, never less than one pixel. */
export function fitted(width: number, height: number, side_px: number): { width: number; height: number } {
  const scale = Math.min(1, side_px / Math.max(width, height));
  const scaled = (length: number) => Math.max(1, Math.round(length * scale));
  return { width: scaled(width), height: scaled(height) };
}

function drawn(seen: ImageBitmap, width: number, height: number, quality: number): Promise<Blob | null> {
  const canvas = document.createElement("canvas");
  canvas.width = width;
  canvas.height = height;
  const pen = canvas.getContext("2d");
  if (!pen) return Promise.resolve(null);
  pen.fillStyle = "#fff"; // what can be seen through would turn black
  pen.fillRect(0, 0, width, height);
  pen.imageSmoothingQuality = "high";
  pen.drawImage(seen, 0, 0, width, height);
  return new Promise((done) => canvas.toBlob(done, TYPE, quality));
}
