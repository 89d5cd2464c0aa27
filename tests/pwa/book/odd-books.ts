import fc from "fast-check";
import schema from "../../../pwa/src/book/bodies.schema.json";
import { type Entry, parseEntry } from "../../../pwa/src/book/entries.ts";
import { STAGES } from "../../../pwa/src/book/stages.ts";
import { EnvelopeFault } from "../../../pwa/src/book/wire.ts";

const ids = fc.nat(15).map((n) => `01950000-0000-7000-8000-${n.toString(16).padStart(12, "0")}`);
const lots = fc.constantFrom("a", "b", "c", "__proto__");
const stages = fc.constantFrom(...STAGES, "fledged", "constructor");
const counts = fc.integer({ min: 1, max: 12 });
const move = fc.record(
  { from: stages, to: stages, n: counts, lot: lots, among: fc.array(lots, { minLength: 1, maxLength: 3 }) },
  { requiredKeys: ["from", "to", "n"] },
);
const sensible = fc.oneof(
  fc.record({
    kind: fc.constant("moved"),
    body: fc.record({ moves: fc.array(move, { maxLength: 4 }), place: ids }, { requiredKeys: ["moves"] }),
  }),
  fc.record({
    kind: fc.constant("set"),
    body: fc.record({
      place: ids,
      species: fc.constant("chicken"),
      set_at: fc.constant("2026-03-01T08:00:00Z"),
      lots: fc.array(fc.record({ lot: lots, family: ids, n: counts }), { maxLength: 3 }),
    }),
  }),
  fc.record({
    kind: fc.constant("looked"),
    body: fc.record({ setting: ids, lot: lots, what: fc.constantFrom("candled", "hatch"), live: counts }),
  }),
);
const odd = fc.record({
  kind: fc.constantFrom(...Object.keys(schema.kinds), "moon_phase", "__proto__"),
  body: fc.dictionary(fc.string(), fc.jsonValue({ maxDepth: 2 }), { maxKeys: 4 }),
});
const entry: fc.Arbitrary<Entry> = fc
  .tuple(
    fc.oneof({ weight: 4, arbitrary: sensible }, { weight: 1, arbitrary: odd }),
    fc.record({
      id: ids,
      v: fc.constantFrom(1, 1, 1, 2),
      at: fc.constantFrom("2026-03-01T08:00:00Z", "2026-03-09T08:00:00Z"),
      skew_ms: fc.constantFrom(null, 0, 200_000),
      amends: fc.oneof(fc.constant(null), ids),
      void: fc.boolean(),
    }),
  )
  .map(([said, envelope]) => ({ device: "phone-1", zone: "UTC", ...envelope, ...said }))
  .filter((written) => !(parseEntry(written) instanceof EnvelopeFault));
/** Small books in which much refers to the same few things, and much is wrong. */
export const books = fc.array(entry, { maxLength: 14 });
