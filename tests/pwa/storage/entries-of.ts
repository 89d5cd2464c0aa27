import type { Entry } from "../../../pwa/src/book/entries.ts";
import { IdMaker } from "../../../pwa/src/storage/uuid7.ts";

/** A maker of ids and entries that repeats: the clock stands at `now_ms` and chance counts up. */
export function writer(device = "phone-a", now_ms = () => 1_772_000_000_000, start = 1) {
  let chance = start;
  const ids = new IdMaker(now_ms, (bytes) => {
    for (let i = 0; i < bytes.length; i += 1) {
      chance = (Math.imul(chance, 1103515245) + 12345) >>> 0;
      bytes[i] = chance >>> 16;
    }
  });
  const entry = (change: Partial<Entry> = {}): Entry => ({
    id: ids.next(),
    v: 1,
    kind: "note",
    device,
    at: "2026-02-25T06:13:20.000Z",
    zone: "Europe/Dublin",
    skew_ms: null,
    amends: null,
    void: false,
    body: { text: "a note" },
    ...change,
  });
  return { ids, entry };
}
