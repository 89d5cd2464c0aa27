/**
 * JSON values as text in canonical form, the same as server/broodline/book/wire.py: no spaces, keys sorted by code
 * point at every depth, whole numbers without a point, other numbers in their shortest form.
 * tests/vectors/canonical.json binds both.
 */
import { byCodePoint } from "./code-points.ts";

const SMALLEST_FRACTION = 0.0001;
const LARGEST_FRACTION = 1e15;
const DEEPEST = 32;

/** A value that cannot be stored; `field` is the part that is wrong, "$" the whole. */
export class EnvelopeFault extends Error {
  readonly code = "envelope";
  readonly field: string;

  constructor(field: string, message: string) {
    super(message);
    this.name = "EnvelopeFault";
    this.field = field;
  }
}

/** Canonical text of a JSON value; throws EnvelopeFault where it has none. */
export function canonical(value: unknown): string {
  return written(value, "$", 1);
}

function written(value: unknown, where: string, depth: number): string {
  if (value === null || typeof value === "boolean") return String(value);
  if (typeof value === "string") return text(value, where);
  if (typeof value === "number") return number(value, where);
  if (typeof value !== "object") throw new EnvelopeFault(where, `${typeof value} is not a JSON value.`);
  if (depth > DEEPEST) throw new EnvelopeFault(where, `Nested more than ${DEEPEST} levels deep.`);
  if (Array.isArray(value)) {
    return `[${Array.from(value, (part) => written(part, where, depth + 1)).join(",")}]`;
  }
  if (Object.prototype.toString.call(value) !== "[object Object]") {
    throw new EnvelopeFault(where, "Not a JSON value.");
  }
  const pairs = Object.entries(value).sort(([a], [b]) => byCodePoint(a, b));
  return `{${pairs.map(([key, part]) => `${text(key, where)}:${written(part, key, depth + 1)}`).join(",")}}`;
}

function text(value: string, where: string): string {
  if (/[\ud800-\udfff]/u.test(value)) {
    throw new EnvelopeFault(where, "The text holds half of a character (a lone surrogate).");
  }
  return JSON.stringify(value);
}

function number(value: number, where: string): string {
  const size = Math.abs(value);
  if (Number.isInteger(value)) {
    if (size > Number.MAX_SAFE_INTEGER) {
      throw new EnvelopeFault(where, "A whole number may be at most 9007199254740991.");
    }
    return String(value === 0 ? 0 : value);
  }
  if (!(size >= SMALLEST_FRACTION && size < LARGEST_FRACTION)) {
    throw new EnvelopeFault(where, `The number ${value} is out of range.`);
  }
  return String(value);
}
