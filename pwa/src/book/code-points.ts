/**
 * Order of texts by code point, as Python sorts them. `<` on strings goes by UTF-16 unit, which puts a character
 * beyond the basic plane before U+E000 to U+FFFF.
 */
export function byCodePoint(a: string, b: string): number {
  const shorter = Math.min(a.length, b.length);
  for (let i = 0; i < shorter; i += 1) {
    const left = a.charCodeAt(i);
    const right = b.charCodeAt(i);
    if (left !== right) return weight(left) - weight(right);
  }
  return a.length - b.length;
}

/** Order of texts that hold nothing but ASCII, such as ids of entries. */
export function byAscii(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** The keys of a map in order of code points. */
export function sortedKeys(map: ReadonlyMap<string, unknown>): string[] {
  return [...map.keys()].sort(byCodePoint);
}

/** How many characters a text has, a pair of surrogates being one. */
export function countCharacters(text: string): number {
  let n = text.length;
  for (let i = 0; i < text.length; i += 1) if (isLow(text.charCodeAt(i))) n -= 1;
  return n;
}

/** How many bytes a text of whole characters takes in UTF-8. */
export function countUtf8Bytes(text: string): number {
  let n = text.length;
  for (let i = 0; i < text.length; i += 1) {
    const unit = text.charCodeAt(i);
    // Each half of a pair is two of its four bytes.
    if (unit >= 0x80) n += unit < 0x800 || isSurrogate(unit) ? 1 : 2;
  }
  return n;
}

/** Surrogates stand for characters above all others, so they weigh more than U+E000 to U+FFFF. */
function weight(unit: number): number {
  return isSurrogate(unit) ? unit + 0x10000 : unit;
}

function isSurrogate(unit: number): boolean {
  return unit >= 0xd800 && unit <= 0xdfff;
}

function isLow(unit: number): boolean {
  return unit >= 0xdc00 && unit <= 0xdfff;
}
