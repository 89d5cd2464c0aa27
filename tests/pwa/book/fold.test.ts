import { describe, expect, it } from "vitest";
import { fold } from "../../../pwa/src/book/fold.ts";
import { standingJson } from "../../../pwa/src/book/standing.ts";
import { canonical } from "../../../pwa/src/book/wire.ts";
import { readVectors } from "../vectors.ts";
import { entriesOf } from "./entries-of.ts";

interface FoldVectors {
  cases: { name: string; in: unknown[]; out: unknown }[];
}

describe("the fold gives what the server's fold gives", () => {
  const { cases } = readVectors("fold") as FoldVectors;
  it.each(cases)("$name", ({ in: written, out }) => {
    expect(canonical(standingJson(fold(entriesOf(written))))).toBe(canonical(out));
  });
  it.each(cases)("$name, in the other order and twice", ({ in: written, out }) => {
    const twice = entriesOf([...written].reverse().concat(structuredClone(written)));
    expect(canonical(standingJson(fold(twice)))).toBe(canonical(out));
  });
});
