/**
 * Files in one archive, each stored as it is: pictures are packed already. PKWARE's APPNOTE.TXT 6.3.3, sections 4.3.7
 * (local header), 4.3.12 (central directory) and 4.3.16 (its end); method 0, names in UTF-8.
 */

export interface ArchivedFile {
  readonly name: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

const LOCAL = 0x04034b50;
const CENTRAL = 0x02014b50;
const END = 0x06054b50;
const LOCAL_LENGTH = 30;
const CENTRAL_LENGTH = 46;
const END_LENGTH = 22;
const NAMES_ARE_UTF8 = 0x0800;
const VERSION = 20;
/** The first day the format knows: 1 January 1980. When a picture was taken stands in its name. */
const DAY = 0x21;

/** The parts of the archive in order, for a Blob: the files' own bytes are not copied. */
export function archiveOf(files: readonly ArchivedFile[]): Uint8Array<ArrayBuffer>[] {
  const parts: Uint8Array<ArrayBuffer>[] = [];
  const directory: Uint8Array<ArrayBuffer>[] = [];
  let at = 0;
  for (const { name, bytes } of files) {
    const named = new TextEncoder().encode(name);
    const fields = [VERSION, NAMES_ARE_UTF8, 0, 0, DAY] as const;
    const sizes = [crc32(bytes), bytes.length, bytes.length] as const;
    const local = headed(LOCAL, LOCAL_LENGTH, named, (put) => {
      for (const field of fields) put(field, 2);
      for (const size of sizes) put(size, 4);
      put(named.length, 2);
      put(0, 2);
    });
    directory.push(
      headed(CENTRAL, CENTRAL_LENGTH, named, (put) => {
        put(VERSION, 2);
        for (const field of fields) put(field, 2);
        for (const size of sizes) put(size, 4);
        put(named.length, 2);
        for (let unused = 0; unused < 4; unused += 1) put(0, 2);
        put(0, 4);
        put(at, 4);
      }),
    );
    parts.push(local, bytes);
    at += local.length + bytes.length;
  }
  const size = directory.reduce((sum, part) => sum + part.length, 0);
  const end = headed(END, END_LENGTH, new Uint8Array(0), (put) => {
    put(0, 2);
    put(0, 2);
    put(files.length, 2);
    put(files.length, 2);
    put(size, 4);
    put(at, 4);
    put(0, 2);
  });
  return [...parts, ...directory, end];
}

/** The files that lie in an archive as they are; packed or damaged ones are left out. Null where it is no archive. */
export function filesIn(archive: ArrayBuffer): ArchivedFile[] | null {
  const view = new DataView(archive);
  const end = endOf(view);
  if (end === null) return null;
  const found: ArchivedFile[] = [];
  let at = view.getUint32(end + 16, true);
  for (let n = view.getUint16(end + 10, true); n > 0; n -= 1) {
    if (at + CENTRAL_LENGTH > end || view.getUint32(at, true) !== CENTRAL) break;
    const [nameLength, extra, remark] = [28, 30, 32].map((place) => view.getUint16(at + place, true));
    const file = fileAt(view, at, nameLength ?? 0);
    if (file) found.push(file);
    at += CENTRAL_LENGTH + (nameLength ?? 0) + (extra ?? 0) + (remark ?? 0);
  }
  return found;
}

function endOf(view: DataView): number | null {
  for (
    let at = view.byteLength - END_LENGTH;
    at >= Math.max(0, view.byteLength - 0xffff - END_LENGTH);
    at -= 1
  )
    if (view.getUint32(at, true) === END) return at;
  return null;
}

function fileAt(view: DataView<ArrayBuffer>, at: number, nameLength: number): ArchivedFile | null {
  const size = view.getUint32(at + 20, true);
  const local = view.getUint32(at + 42, true);
  const named = at + CENTRAL_LENGTH;
  if (view.getUint16(at + 10, true) !== 0 || local + LOCAL_LENGTH > view.byteLength) return null;
  if (named + nameLength > view.byteLength) return null;
  const from = local + LOCAL_LENGTH + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
  if (view.getUint32(local, true) !== LOCAL || from + size > view.byteLength) return null;
  const bytes = new Uint8Array(view.buffer, from, size);
  if (crc32(bytes) !== view.getUint32(at + 16, true)) return null;
  const name = new TextDecoder().decode(new Uint8Array(view.buffer, named, nameLength));
  return { name, bytes };
}

/** A header of the archive: its mark, its fields one after the other, the name. */
function headed(
  mark: number,
  length: number,
  name: Uint8Array,
  write: (put: (value: number, size: 2 | 4) => void) => void,
): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(length + name.length);
  const view = new DataView(bytes.buffer);
  view.setUint32(0, mark, true);
  let at = 4;
  write((value, size) => {
    if (size === 2) view.setUint16(at, value, true);
    else view.setUint32(at, value, true);
    at += size;
  });
  bytes.set(name, length);
  return bytes;
}

const CRC_OF_BYTE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let crc = byte;
  for (let bit = 0; bit < 8; bit += 1) crc = (crc >>> 1) ^ (0xedb88320 & -(crc & 1));
  return crc;
});

/** The check of ISO 3309, as APPNOTE 4.4.7 wants it. */
export function crc32(bytes: Uint8Array): number {
  let crc = ~0;
  for (const byte of bytes) crc = (crc >>> 8) ^ (CRC_OF_BYTE[(crc ^ byte) & 0xff] ?? 0);
  return ~crc >>> 0;
}
