import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Entry } from "../../../pwa/src/book/entries.ts";
import { fold } from "../../../pwa/src/book/fold.ts";
import { inStage, type Standing, standingJson } from "../../../pwa/src/book/standing.ts";
import { canonical } from "../../../pwa/src/book/wire.ts";
import { books } from "./odd-books.ts";

function told(standing: Standing): string {
  return canonical(standingJson(standing));
}

describe("whatever entries there are", () => {
  it("the same set gives the same standing, in any order, doubled, and in any parts", () => {
    const shuffles = books.chain((book) => {
      const doubled = book.concat(structuredClone(book));
      return fc.tuple(fc.constant(book), fc.shuffledSubarray(doubled, { minLength: doubled.length }));
    });
    fc.assert(
      fc.property(shuffles, fc.nat(28), ([book, shuffled], cut) => {
        const parts = new Set([...shuffled.slice(cut), ...shuffled.slice(0, cut)]);
        expect(told(fold(parts))).toBe(told(fold(book)));
      }),
      { numRuns: 300 },
    );
  });

  it("no egg appears and none is lost", () => {
    fc.assert(
      fc.property(books, (book) => {
        const standing = fold(book);
        for (const lot of standing.lots.values()) {
          expect([...lot.stages.values()].reduce((sum, n) => sum + n, 0)).toBe(lot.n);
          expect(lot.missing).toBeGreaterThanOrEqual(0);
          expect(lot.missing).toBeLessThanOrEqual(Math.max(0, inStage(lot, "unaccounted")));
        }
        for (const setting of standing.settings.values()) {
          const eggs = setting.lots.map((name) => standing.lots.get(name)?.n ?? Number.NaN);
          expect([...setting.stages.values()].reduce((sum, n) => sum + n, 0)).toBe(
            eggs.reduce((sum, n) => sum + n, 0),
          );
        }
      }),
      { numRuns: 300 },
    );
  });

  it("an entry already read is not read anew, and a book is not changed by folding", () => {
    fc.assert(
      fc.property(books, (book) => {
        const before = structuredClone(book);
        const once = told(fold(book));
        expect(told(fold(book))).toBe(once);
        expect(book).toEqual(before);
      }),
    );
  });
});

it("folds a chain of 20 000 corrections and as many twins without a throw", () => {
  const id = (n: number) => `01950000-0000-7000-8000-${n.toString(16).padStart(12, "0")}`;
  const note = (n: number, amends: string | null): Entry => ({
    id: id(n),
    v: 1,
    kind: "note",
    device: "phone-1",
    at: "2026-03-01T08:00:00Z",
    zone: "UTC",
    skew_ms: null,
    amends,
    void: false,
    body: { text: String(n) },
  });
  const chain = Array.from({ length: 20_000 }, (_, n) => note(n, n === 0 ? null : id(n - 1)));
  expect(fold(chain).heads.note?.map((head) => head.id)).toEqual([id(19_999)]);
  const twins = Array.from({ length: 130_000 }, (_, n) => note(n, n === 0 ? null : id(0)));
  expect(fold(twins).problems).toHaveLength(129_998);
}, 60_000);
