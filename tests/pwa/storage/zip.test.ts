import { expect, it } from "vitest";
import { archiveOf, crc32, filesIn } from "../../../pwa/src/storage/zip.ts";

const text = (words: string) => new TextEncoder().encode(words) as Uint8Array<ArrayBuffer>;
const FILES = [
  { name: "2026-03-29 1412 3fa9c1d2.jpg", bytes: text("one picture") },
  { name: "Küken 🐣.png", bytes: text("another") },
  { name: "empty.jpg", bytes: text("") },
];
const whole = (files: typeof FILES) => new Blob(archiveOf(files)).arrayBuffer();

it("checks bytes as the standard does", () => {
  // The check value printed for CRC-32 (ISO-HDLC) in Koopman's and Greg Cook's catalogues.
  expect(crc32(text("123456789")).toString(16)).toBe("cbf43926");
  expect(crc32(text(""))).toBe(0);
});

it("gives back every file with its name", async () => {
  const found = filesIn(await whole(FILES));
  expect(found?.map(({ name, bytes }) => [name, [...bytes]])).toEqual(
    FILES.map(({ name, bytes }) => [name, [...bytes]]),
  );
  expect(filesIn(await whole([]))).toEqual([]);
});

it("leaves out a damaged file and one that is packed, and is no archive without its end", async () => {
  const damaged = new Uint8Array(await whole(FILES));
  const at = new TextDecoder("latin1").decode(damaged).indexOf("one picture");
  damaged[at] = 0;
  expect(filesIn(damaged.buffer)?.map(({ name }) => name)).toEqual([FILES[1]?.name, FILES[2]?.name]);
  const packed = new Uint8Array(await whole(FILES));
  packed[new TextDecoder("latin1").decode(packed).indexOf("PK\x01\x02") + 10] = 8;
  expect(filesIn(packed.buffer)).toHaveLength(2);
  expect(filesIn((await whole(FILES)).slice(0, -10))).toBeNull();
  expect(filesIn(text("no archive").buffer)).toBeNull();
});

it("never reads beyond its end, wherever a byte is wrong", async () => {
  const sound = new Uint8Array(await whole(FILES.slice(0, 1)));
  for (let at = 0; at < sound.length; at += 1) {
    for (const value of [0, 0xff]) {
      const odd = sound.slice();
      odd[at] = value;
      expect(() => filesIn(odd.buffer)).not.toThrow();
    }
  }
});
