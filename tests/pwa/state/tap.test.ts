import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Entry } from "../../../pwa/src/book/entries.ts";
import { fold } from "../../../pwa/src/book/fold.ts";
import { CHICK_STAGES, mayMove, STAGES } from "../../../pwa/src/book/stages.ts";
import type { Standing } from "../../../pwa/src/book/standing.ts";
import { withTap } from "../../../pwa/src/state/tap.ts";
import { writer } from "../storage/entries-of.ts";

/** Two settings of one incubator, two lots in the first, one in the second. */
function book() {
  let now_ms = 1_772_000_000_000;
  const { entry, ids } = writer("a", () => (now_ms += 1000));
  const place = entry({ kind: "place", body: { name: "Loft box", role: "incubator" } });
  const family = entry({ kind: "family", body: { name: "Rowan", species: "chicken", breed: "Marans" } });
  const lots = [ids.next(), ids.next(), ids.next()];
  const set = (names: readonly string[]) =>
    entry({
      kind: "set",
      body: {
        place: place.id,
        species: "chicken",
        set_at: "2026-02-20T08:00:00.000Z",
        lots: names.map((lot) => ({ lot, family: family.id, n: 12 })),
      },
    });
  const settings = [set(lots.slice(0, 2)), set(lots.slice(2))];
  return { entry, ids, place: place.id, lots, settings, entries: [place, family, ...settings] };
}

const lot = fc.constantFrom(0, 0, 0, 1, 1, 1, 2, 2, 3); // the fourth is in no setting
const stage = fc.constantFrom(...STAGES);
/** Mostly what a tally does, some of it nonsense. */
const act = fc.oneof(
  {
    weight: 4,
    arbitrary: fc.record({
      does: fc.constant("look" as const),
      lot,
      setting: fc.nat(1),
      n: fc.integer({ min: 0, max: 3 }),
    }),
  },
  {
    weight: 6,
    arbitrary: fc.record({
      does: fc.constant("move" as const),
      lot,
      from: fc.oneof(
        { weight: 8, arbitrary: fc.constantFrom("set", "set", "set", "set", "locked") },
        { weight: 1, arbitrary: stage },
      ),
      to: fc.oneof(
        { weight: 8, arbitrary: fc.constantFrom("locked", "clear", "hatched") },
        { weight: 1, arbitrary: stage },
      ),
      n: fc.oneof(
        { weight: 8, arbitrary: fc.constant(1) },
        { weight: 1, arbitrary: fc.integer({ min: 0, max: 7 }) },
      ),
      earlier_ms: fc.constantFrom(0, 0, 0, 0, 0, 3_600_000, 10 * 86_400_000),
      housed: fc.boolean(),
    }),
  },
  {
    weight: 4,
    arbitrary: fc.record({
      does: fc.constant("undo" as const),
      which: fc.constantFrom(0, 0, 0, 1, 2, 5, 17),
    }),
  },
  { weight: 2, arbitrary: fc.record({ does: fc.constant("air" as const), known: fc.boolean() }) },
);

describe("a tap worked into a standing", () => {
  it("gives what the fold of the whole book gives, whenever it gives anything", () => {
    let quick = 0;
    fc.assert(
      fc.property(fc.array(act, { minLength: 1, maxLength: 30 }), (acts) => {
        const { entry, place, lots, settings, entries } = book();
        const all: Entry[] = [...entries];
        let standing: Standing = fold(all);
        for (const one of acts) {
          const next = entryFor(one);
          if (!next) continue;
          all.push(next);
          const tapped = withTap(standing, next);
          standing = fold(all);
          if (tapped === null) continue;
          quick += 1;
          expect(tapped).toStrictEqual(standing);
        }

        function entryFor(one: (typeof acts)[number]): Entry | undefined {
          if (one.does === "undo") {
            const target = all[all.length - 1 - (one.which % all.length)];
            return target && entry({ ...target, id: entry().id, amends: target.id, void: true });
          }
          if (one.does === "air")
            return entry({ kind: "air", body: { place: one.known ? place : lots[0], dry_c: 37.5 } });
          const name = lots[one.lot] ?? "0199aaaa-aaaa-7aaa-8aaa-aaaaaaaaaaaa";
          if (one.does === "look") {
            const setting = settings[one.setting]?.id;
            return entry({
              kind: "looked",
              body: { setting, lot: name, what: "candled", day: 7, live: one.n },
            });
          }
          const { from, to, n, housed, earlier_ms } = one;
          const at = new Date(Date.parse("2026-02-25T08:00:00Z") - earlier_ms).toISOString();
          return entry({
            kind: "moved",
            at,
            body: { moves: [{ lot: name, from, to, n }], ...(housed ? { place } : {}) },
          });
        }
      }),
      { numRuns: 300, seed: 7 },
    );
    expect(quick).toBeGreaterThan(500); // the plain case must not be the rare one
  });

  it("leaves every odd case to the fold", () => {
    const { entry, lots, settings, entries } = book();
    const standing = fold(entries);
    const [first = "", second = ""] = lots;
    const move = (body: Record<string, unknown>, change: Partial<Entry> = {}) =>
      withTap(standing, entry({ kind: "moved", body, ...change }));
    const fine = { lot: first, from: "set", to: "clear", n: 1 };
    expect(move({ moves: [fine] })).not.toBeNull();
    const odd = [
      move({ moves: [{ ...fine, n: 13 }] }),
      move({ moves: [{ ...fine, to: "growing" }] }),
      move({ moves: [{ ...fine, n: "1" }] }),
      move({ moves: [{ among: [first, second], from: "set", to: "clear", n: 1 }] }),
      move({ moves: [fine, { ...fine, lot: second }] }),
      move({ moves: [{ ...fine, to: "unaccounted" }] }),
      move({ moves: [fine], place: "nowhere" }),
      move({ moves: [fine], settles: first }),
      move({ moves: [fine] }, { at: "2025-01-01T00:00:00.000Z" }),
      move({ moves: [fine] }, { v: 2 }),
      move({ moves: [fine] }, { amends: settings[0]?.id ?? null }),
      withTap(standing, entry({ kind: "place", body: { name: "Pen", role: "pen" } })),
      withTap(standing, entry({ kind: "air", body: { place: "nowhere", dry_c: 37.5 } })),
      withTap(standing, entry({ kind: "note", body: { text: 3 } })),
      withTap(standing, entry({ kind: "note", body: { text: "x" }, void: true })),
    ];
    expect(odd).toEqual(odd.map(() => null));
    expect(CHICK_STAGES.every((to) => mayMove("set", to) === (to === "hatched"))).toBe(true);
  });

  it("leaves an entry to the fold that a correction was waiting for", () => {
    const { entry, lots, entries } = book();
    const body = { moves: [{ lot: lots[0], from: "set", to: "clear", n: 1 }] };
    const first = entry({ kind: "moved", body });
    const correction = entry({
      kind: "moved",
      body: { moves: [{ lot: lots[0], from: "set", to: "cracked", n: 2 }] },
      amends: first.id,
    });
    const before = fold([...entries, correction]);
    expect(withTap(before, first)).toBeNull();
    expect(withTap(fold(entries), first)).toStrictEqual(fold([...entries, first]));
  });

  it("leaves every move of a marked hatch to the fold, which tells who is without a mark", () => {
    const { entry, lots, entries } = book();
    const [marked, beside, elsewhere] = lots;
    const out = (name = "") =>
      entry({ kind: "moved", body: { moves: [{ lot: name, from: "set", to: "hatched", n: 1 }] } });
    const mark = entry({ kind: "marked", body: { lot: marked, webs: ["LO", "RI"], n: 1 } });
    const standing = fold([...entries, mark]);
    expect([withTap(standing, out(marked)), withTap(standing, out(beside))]).toEqual([null, null]);
    expect(withTap(standing, out(elsewhere))).not.toBeNull();
  });

  it("takes an entry whose id is not the greatest, as when another phone's clock runs ahead", () => {
    const { entry, lots, entries } = book();
    const early = entry({
      kind: "moved",
      body: { moves: [{ lot: lots[0], from: "set", to: "clear", n: 1 }] },
    });
    const late = entry({
      kind: "moved",
      body: { moves: [{ lot: lots[0], from: "set", to: "cracked", n: 1 }] },
    });
    const standing = fold([...entries, late]);
    expect(withTap(standing, early)).toStrictEqual(fold([...entries, late, early]));
  });
});
