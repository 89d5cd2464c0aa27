import { describe, expect, it } from "vitest";
import { type Entry, parseEntry } from "../../../pwa/src/book/entries.ts";
import { fold } from "../../../pwa/src/book/fold.ts";
import { standingJson } from "../../../pwa/src/book/standing.ts";
import { canonical } from "../../../pwa/src/book/wire.ts";
import { readVectors } from "../vectors.ts";

interface FoldVectors {
  cases: { name: string; in: unknown[]; out: unknown }[];
}

function entries(written: readonly unknown[]): Entry[] {
  return written.map((value) => {
    const entry = parseEntry(value);
    if (entry instanceof Error) throw entry;
    return entry;
  });
}

describe("the fold gives what the server's fold gives", () => {
  const { cases } = readVectors("fold") as FoldVectors;
  it.each(cases)("$name", ({ in: written, out }) => {
    expect(canonical(standingJson(fold(entries(written))))).toBe(canonical(out));
  });
  it.each(cases)("$name, in the other order and twice", ({ in: written, out }) => {
    const twice = entries([...written].reverse().concat(structuredClone(written)));
    expect(canonical(standingJson(fold(twice)))).toBe(canonical(out));
  });
});
