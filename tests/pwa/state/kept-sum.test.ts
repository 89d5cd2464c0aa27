import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fold } from "../../../pwa/src/book/fold.ts";
import type { Standing } from "../../../pwa/src/book/standing.ts";
import { packed, unpacked } from "../../../pwa/src/state/kept-sum.ts";
import { LaterMap } from "../../../pwa/src/state/later-map.ts";
import { books } from "../book/odd-books.ts";
import { longBook } from "./long-book.ts";

/** A standing as a kept sum has it: its looks and moves stand in the lots alone, and all lots are made. */
function withoutTheirHeads(standing: Standing): Standing {
  const { looked: _looked, moved: _moved, ...heads } = standing.heads;
  return { ...standing, heads, lots: new Map(standing.lots) };
}

function again(standing: Standing): Standing | null {
  const found = unpacked([...packed(standing)]);
  return found && { ...found, lots: new Map(found.lots) };
}

describe("a standing packed and unpacked", () => {
  it("is the standing again, of any book", () => {
    fc.assert(
      fc.property(books, (book) => {
        const standing = fold(book);
        expect(again(standing)).toStrictEqual(withoutTheirHeads(standing));
      }),
      { numRuns: 300, seed: 3 },
    );
  });

  it("is the standing again where it takes several pieces", () => {
    const standing = fold(longBook(300).entries);
    expect([...packed(standing)].length).toBeGreaterThan(2);
    expect(again(standing)).toStrictEqual(withoutTheirHeads(standing));
  });

  it("is nothing where the text is no standing", () => {
    const texts = [...packed(fold(longBook(2).entries))];
    expect(unpacked([])).toBeNull();
    expect(unpacked(["{}", ...texts.slice(1)])).toBeNull();
    expect(unpacked([texts[0]?.slice(1) ?? "", ...texts.slice(1)])).toBeNull();
  });
});

describe("a map made piece by piece", () => {
  const keys = fc.uniqueArray(fc.string({ unit: "binary", maxLength: 3 }), { minLength: 1, maxLength: 12 });

  it("is the plain map of the same pairs, and makes no piece that nobody asks for", () => {
    fc.assert(
      fc.property(keys, fc.integer({ min: 1, max: 4 }), fc.nat(), fc.string(), (names, size, pick, other) => {
        const plain = new Map(fold([]).rootOf);
        for (const name of names.sort(byCodePoints)) plain.set(name, `of ${name}`);
        const pairs = [...plain];
        const piece = (at: number) => new Map(pairs.slice(at * size, (at + 1) * size));
        const made: number[] = [];
        const firsts = names.filter((_, at) => at % size === 0);
        const later = new LaterMap(firsts, (at) => {
          made.push(at);
          return piece(at);
        });
        const at = pick % names.length;
        const name = names[at] ?? "";
        expect(later.get(name)).toBe(plain.get(name));
        expect(made).toEqual([Math.floor(at / size)]);
        expect([later.has(other), later.get(other)]).toEqual([plain.has(other), plain.get(other)]);
        const changed = later.with(name, "new");
        expect([...changed]).toEqual([...new Map(plain).set(name, "new")]);
        expect([...later]).toEqual(pairs);
        expect([later.size, [...later.keys()], [...later.values()]]).toEqual([
          plain.size,
          [...plain.keys()],
          [...plain.values()],
        ]);
        expect(new Set(made).size).toBe(made.length);
      }),
      { numRuns: 200, seed: 5 },
    );
  });
});

function byCodePoints(a: string, b: string): number {
  const [left, right] = [a, b].map((text) => [...text].map((one) => one.codePointAt(0) ?? 0));
  for (const [at, point] of (left ?? []).entries()) {
    const other = right?.[at];
    if (other === undefined) return 1;
    if (point !== other) return point - other;
  }
  return (left?.length ?? 0) - (right?.length ?? 0);
}
