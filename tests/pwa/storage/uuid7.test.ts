import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { IdMaker } from "../../../pwa/src/storage/uuid7.ts";

const FORM = /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;
const msOf = (id: string) => Number.parseInt(id.slice(0, 8) + id.slice(9, 13), 16);

describe("ids of version 7", () => {
  it("are laid out as the example of RFC 9562, appendix A.6", () => {
    // The RFC's own bits: unix_ts_ms 0x017F22E279B0, rand_a 0xCC3, rand_b 0x18C4DC0C0C07398F. The counter starts in
    // the lower half of its 12 bits, so the top bit of rand_a is not chance here: 0xCC3 becomes 0x4C3.
    const bits = [0, 0, 0, 0, 0, 0, 0x7c, 0xc3, 0x18, 0xc4, 0xdc, 0x0c, 0x0c, 0x07, 0x39, 0x8f];
    const ids = new IdMaker(
      () => 0x017f22e279b0,
      (bytes) => bytes.set(bits),
    );
    expect(ids.next()).toBe("017f22e2-79b0-74c3-98c4-dc0c0c07398f");
  });

  it("only grow, whatever the clock does, and stay well formed", () => {
    const step = fc.integer({ min: -400 * 86_400_000, max: 86_400_000 });
    fc.assert(
      fc.property(
        fc.array(step, { minLength: 1, maxLength: 50 }),
        fc.infiniteStream(fc.nat(255)),
        (steps, chance) => {
          let now = 1_772_000_000_000;
          const ids = new IdMaker(
            () => now,
            (bytes) => {
              for (let i = 0; i < bytes.length; i += 1) bytes[i] = chance.next().value ?? 0;
            },
          );
          let last = "";
          for (const move of steps) {
            now += move;
            for (const id of [ids.next(), ids.next()]) {
              expect(id).toMatch(FORM);
              expect(id > last).toBe(true);
              last = id;
            }
          }
        },
      ),
    );
  });

  it("count through a burst of thousands within one millisecond", () => {
    const ids = new IdMaker(
      () => 1_772_000_000_000,
      (bytes) => bytes.fill(255),
    );
    const made = Array.from({ length: 10_000 }, () => ids.next());
    expect(made).toEqual([...new Set(made)].sort());
  });

  it("go on after those that this phone wrote before its clock was set back", () => {
    const before = new IdMaker(
      () => 1_900_000_000_000,
      (bytes) => bytes.fill(7),
    );
    const written = [before.next(), before.next(), before.next()];
    const after = new IdMaker(
      () => 1_772_000_000_000,
      (bytes) => bytes.fill(3),
    );
    for (const id of written) after.startAfter(id);
    const id = after.next();
    expect(id > (written.at(-1) ?? "")).toBe(true);
    expect(msOf(id)).toBe(1_900_000_000_000);
  });
});
