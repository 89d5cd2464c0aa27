import fc from "fast-check";
import { expect, it } from "vitest";
import { byCodePoint, countCharacters, countUtf8Bytes } from "../../../pwa/src/book/code-points.ts";

const texts = fc.string({ unit: "grapheme" });

it("orders as the bytes of UTF-8 do", () => {
  // RFC 3629, section 1: sorting by UTF-8 bytes is sorting by code point.
  fc.assert(
    fc.property(fc.array(texts), (words) => {
      const byBytes = [...words].sort((a, b) => Buffer.compare(Buffer.from(a), Buffer.from(b)));
      expect([...words].sort(byCodePoint)).toEqual(byBytes);
    }),
  );
  expect(["\u{1f600}", "\ufb33", "z", ""].sort(byCodePoint)).toEqual(["", "z", "\ufb33", "\u{1f600}"]);
});

it("counts characters and bytes", () => {
  fc.assert(
    fc.property(texts, (text) => {
      expect(countCharacters(text)).toBe([...text].length);
      expect(countUtf8Bytes(text)).toBe(Buffer.byteLength(text, "utf8"));
    }),
  );
});
