import { describe, expect, it } from "vitest";
import { entryBytes, LARGEST_ENTRY_BYTES, parseEntry } from "../../../pwa/src/book/entries.ts";
import { canonical, EnvelopeFault } from "../../../pwa/src/book/wire.ts";

const NOTE = {
  id: "01950000-0000-7000-8000-000000000001",
  v: 1,
  kind: "note",
  device: "phone-1",
  at: "2026-03-01T08:00:00Z",
  zone: "Europe/Dublin",
  skew_ms: null,
  amends: null,
  void: false,
  body: { text: "Dry night" },
};

describe("an envelope", () => {
  it("passes whole, with what a newer app wrote", () => {
    const written = JSON.parse(`{"hue":{"__proto__":1},${JSON.stringify(NOTE).slice(1)}`);
    const entry = parseEntry(written);
    expect(entry).toBe(written);
    expect(canonical(entry)).toContain('"hue":{"__proto__":1}');
  });

  it.each([
    ["id", "01950000-0000-7000-8000-00000000000A"],
    ["id", "01950000-0000-4000-8000-000000000001"],
    ["v", 0],
    ["v", 1.5],
    ["v", "1"],
    ["v", true],
    ["kind", ""],
    ["device", "x".repeat(101)],
    ["zone", null],
    ["at", "2026-02-30T08:00:00Z"],
    ["at", "2026-03-01T08:00:00+00:00"],
    ["at", "2026-03-01T08:00Z"],
    ["skew_ms", 0.5],
    ["amends", "the other one"],
    ["void", 0],
    ["body", []],
    ["body", null],
  ])("with %s %j is refused by that name", (field, value) => {
    expect(parseEntry({ ...NOTE, [field]: value })).toMatchObject({ field });
  });

  it.each(Object.keys(NOTE))("without %s is refused by that name", (field) => {
    const entries = Object.entries(NOTE).filter(([name]) => name !== field);
    expect(parseEntry(Object.fromEntries(entries))).toMatchObject({ field, code: "envelope" });
  });

  it.each([null, [], "entry", 1, undefined])("is an object, not %j", (value) => {
    expect(parseEntry(value)).toBeInstanceOf(EnvelopeFault);
  });

  it("may have names of 100 characters, however many bytes they take", () => {
    expect(parseEntry({ ...NOTE, device: "\u{1f600}".repeat(100) })).not.toBeInstanceOf(EnvelopeFault);
    expect(parseEntry({ ...NOTE, device: "\u{1f600}".repeat(101) })).toBeInstanceOf(EnvelopeFault);
  });

  it("takes 8 KiB at most", () => {
    const room = LARGEST_ENTRY_BYTES - entryBytes({ ...NOTE, body: { text: "" } });
    const full = { ...NOTE, body: { text: "x".repeat(room) } };
    expect(parseEntry(full)).toBe(full);
    expect(parseEntry({ ...NOTE, body: { text: `${"x".repeat(room - 1)}é` } })).toMatchObject({ field: "$" });
  });
});
