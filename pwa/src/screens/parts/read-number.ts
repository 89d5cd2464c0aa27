// What a keeper types as a number: comma or dot, spaces between thousands, nothing guessed.

export type Reading =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly why: "empty" | "not_a_number" | "not_whole" | "too_small" | "too_large" };

const SPACES = /[\s\u00a0\u202f']/g;
const GROUPED = /^\d{1,3}(?:[.,]\d{3})+$/;

/** Reads a count of eggs or birds: a whole number from `least` to `most`. "1,200" and "1 200" are twelve hundred. */
export function readCount(text: string, least = 0, most = 100_000): Reading {
  const packed = text.replace(SPACES, "");
  if (packed === "") return { ok: false, why: "empty" };
  const whole = GROUPED.test(packed) ? packed.replace(/[.,]/g, "") : packed.replace(/[.,]0*$/, "");
  if (/^\d+[.,]\d+$/.test(whole)) return { ok: false, why: "not_whole" };
  if (/^-\d+$/.test(whole)) return { ok: false, why: "too_small" };
  if (!/^\d+$/.test(whole)) return { ok: false, why: "not_a_number" };
  return within(Number(whole), least, most);
}

/** Reads a measured value: one comma or dot is the decimal sign; with both, the last is. */
export function readDecimal(
  text: string,
  least = Number.NEGATIVE_INFINITY,
  most = Number.POSITIVE_INFINITY,
): Reading {
  const packed = text.replace(SPACES, "").replace(/^[\u2212\u2013]/, "-");
  if (packed === "") return { ok: false, why: "empty" };
  const sign = packed.match(/[.,](?=\d*$)/)?.[0];
  const other = sign === "," ? /\./g : /,/g;
  const plain = sign ? packed.replace(other, "").replace(sign, ".") : packed;
  if (!/^-?(?:\d+\.?\d*|\.\d+)$/.test(plain)) return { ok: false, why: "not_a_number" };
  return within(Number(plain), least, most);
}

function within(value: number, least: number, most: number): Reading {
  if (value < least) return { ok: false, why: "too_small" };
  if (value > most) return { ok: false, why: "too_large" };
  return { ok: true, value };
}
