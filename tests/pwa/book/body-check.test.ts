import fc from "fast-check";
import { describe, expect, it } from "vitest";
import schema from "../../../pwa/src/book/bodies.schema.json";
import { readBody } from "../../../pwa/src/book/body-check.ts";
import { isKind, type Kind } from "../../../pwa/src/book/kinds.ts";

const KINDS = Object.keys(schema.kinds).filter(isKind);
const MOVE = { lot: "a", from: "set", to: "clear", n: 1 };

describe("a body that fits", () => {
  it("is kept without what this version does not know and without empty fields", () => {
    const body = { moves: [{ ...MOVE, among: null, hue: 3 }], why: null, helped: false, from_: "x" };
    expect(readBody("moved", body)).toEqual({ body: { moves: [MOVE], helped: false }, more: true });
  });

  it("says whether a newer app wrote more into it, in the body or in a part of it", () => {
    const more = (move: object, why: object = {}) => {
      const found = readBody("moved", { moves: [{ ...MOVE, ...move }], ...why });
      return "body" in found && found.more;
    };
    expect([more({}), more({ among: null }, { why: null })]).toEqual([false, false]);
    expect([more({ hue: null }), more({}, { hue: 3 })]).toEqual([true, true]);
    expect(readBody("scored", { bird: "b", on: "2026-03-01", scores: { any: 1 } })).toMatchObject({
      more: false,
    });
  });

  it("may have a whole number written with a point, and __proto__ for a key", () => {
    const written = JSON.parse('{"bird":"b","on":"2026-03-01","scores":{"__proto__":37.0,"comb":-0.5}}');
    const found = readBody("scored", written);
    expect(JSON.stringify(found)).toBe(
      '{"body":{"bird":"b","on":"2026-03-01","scores":{"__proto__":37,"comb":-0.5}},"more":false}',
    );
  });
});

describe("a body that does not fit", () => {
  const cases: [Kind, Record<string, unknown>, string][] = [
    ["moved", {}, "moves"],
    ["moved", { moves: [{ ...MOVE, n: "3" }] }, "moves"],
    ["moved", { moves: [{ ...MOVE, n: true }] }, "moves"],
    ["moved", { moves: [{ ...MOVE, n: 0 }] }, "moves"],
    ["moved", { moves: [{ ...MOVE, n: 1.5 }] }, "moves"],
    ["moved", { moves: [{ from: "set", to: "clear", n: 1 }] }, "moves"],
    ["moved", { moves: [MOVE], why: "" }, "why"],
    ["moved", { moves: [MOVE], day: -1, cause: 3 }, "cause"],
    ["moved", { moves: { 0: MOVE } }, "moves"],
    ["air", { place: "p", dry_c: "37.7" }, "dry_c"],
    ["air", { place: "", dry_c: true }, "dry_c"],
    ["keeper", { holding: "G", zone: "UTC", temperature: "c", mass: "g" }, "temperature"],
    [
      "keeper",
      { holding: "G", zone: "UTC", temperature: "C", mass: "g", season_starts: 13 },
      "season_starts",
    ],
    [
      "keeper",
      { holding: "G", zone: "UTC", temperature: "C", mass: "g", never_pair: [["a", "b"]] },
      "never_pair",
    ],
    ["came", { on: "2026-03-01", how: "bought" }, ""],
    ["came", { on: "2026-02-29", how: "bought", lot: "a" }, "on"],
    ["penned", { family: "f", since: "2026-03-01 08:00", sires: [], dams: [] }, "since"],
    ["photo", { sha256: `${"0".repeat(64)}\n`, type: "image/png", width: 1, height: 1 }, "sha256"],
    ["weighed", { on: "2026-03-01", birds: Array.from({ length: 101 }, () => ({ mass_g: 1 })) }, "birds"],
    ["bird", { sex: "female", sires: [{ bird: "s", share: 0 }] }, "sires"],
    ["scored", { bird: "b", on: "2026-03-01", scores: { comb: null } }, "scores"],
  ];
  it.each(cases)("%s %j is wrong at %j", (kind, body, misfit) => {
    expect(readBody(kind, body)).toEqual({ misfit });
  });
});

it("reads any body whatever without a throw", () => {
  const bodies = fc.dictionary(fc.string(), fc.anything({ withNullPrototype: true, withMap: true }));
  fc.assert(
    fc.property(fc.constantFrom(...KINDS), bodies, (kind, body) => {
      const found = readBody(kind, body);
      expect("body" in found || typeof found.misfit === "string").toBe(true);
    }),
  );
});

it("finds every body it kept to fit again, unchanged", () => {
  const move = fc.record({
    lot: fc.string({ minLength: 1 }),
    from: fc.constant("set"),
    to: fc.string({ minLength: 1 }),
    n: fc.integer({ min: 1, max: 9 }),
  });
  fc.assert(
    fc.property(fc.array(move), fc.option(fc.nat(30)), (moves, day) => {
      const found = readBody("moved", { moves, day, hue: 1 });
      if (!("body" in found)) throw new Error(found.misfit);
      expect(readBody("moved", { ...found.body })).toEqual({ body: found.body, more: false });
    }),
  );
});
