import { createHash } from "node:crypto";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { canonical, EnvelopeFault } from "../../../pwa/src/book/wire.ts";
import { readVectors } from "../vectors.ts";

type Case = { name: string; out: string; sha256: string; refused?: true } & (
  | { in: unknown }
  | { made: string }
);

const { cases, texts } = readVectors("canonical") as {
  cases: Case[];
  texts: { name: string; text: string }[];
};

const MADE: Record<string, unknown> = {
  "lone high surrogate": "\ud800",
  "lone low surrogate key": { "\udc00": 1 },
  NaN: Number.NaN,
  Infinity: Number.POSITIVE_INFINITY,
  undefined: undefined,
};

function madeOf(found: Case): unknown {
  if ("in" in found) return found.in;
  if (!(found.made in MADE)) throw new Error(`How is this made: ${found.made}?`);
  return MADE[found.made];
}

describe("canonical text", () => {
  it.each(cases.filter((found) => !found.refused))("$name", (found) => {
    const text = canonical(madeOf(found));
    expect(text).toBe(found.out);
    expect(createHash("sha256").update(text, "utf8").digest("hex")).toBe(found.sha256);
  });

  it.each(cases.filter((found) => found.refused))("refuses: $name", (found) => {
    expect(() => canonical(madeOf(found))).toThrow(EnvelopeFault);
  });

  it.each([[new Date(0)], [new Map()], [() => 1], [Symbol("x")], [10n], [[undefined]], [new Array(1)]])(
    "refuses what is not JSON: %s",
    (value) => {
      expect(() => canonical({ value })).toThrow(EnvelopeFault);
    },
  );

  it("names the field that is wrong", () => {
    expect(() => canonical({ body: { heat_c: Number.NaN } })).toThrow(
      expect.objectContaining({ field: "heat_c", code: "envelope" }),
    );
  });

  it("reads back as the same value, and is then the same text", () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 2 }), (value) => {
        const text = textOrNull(value);
        if (text !== null) expect(canonical(JSON.parse(text))).toBe(text);
      }),
    );
  });
});

describe("texts that carry no value", () => {
  // Doubled keys are gone once JSON.parse has read them; the server refuses them before a phone could get them.
  const seen = texts.filter(({ name }) => !name.startsWith("doubled key"));
  it.each(seen)("$name", ({ text }) => {
    expect(() => canonical(JSON.parse(text))).toThrow();
  });
});

function textOrNull(value: unknown): string | null {
  try {
    return canonical(value);
  } catch (fault) {
    expect(fault).toBeInstanceOf(EnvelopeFault);
    return null;
  }
}
