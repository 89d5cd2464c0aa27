import type { Entry } from "../../../pwa/src/book/entries.ts";
import { writer } from "../storage/entries-of.ts";

/** A book of so many settings of one lot each, each candled with three looks and a clear egg, with readings of the air. */
export function longBook(settings: number): {
  readonly entries: Entry[];
  readonly place: string;
  readonly lots: readonly string[];
  readonly sets: readonly string[];
} {
  let now_ms = Date.UTC(2025, 0, 1);
  const { entry, ids } = writer("a", () => (now_ms += 1000));
  const place = entry({ kind: "place", body: { name: "Loft box", role: "incubator" } });
  const family = entry({ kind: "family", body: { name: "Rowan", species: "chicken", breed: "Marans" } });
  const entries = [place, family];
  const [lots, sets]: [string[], string[]] = [[], []];
  for (let n = 0; n < settings; n += 1) {
    const lot = ids.next();
    const set = entry({
      kind: "set",
      body: {
        place: place.id,
        species: "chicken",
        set_at: "2025-01-01T08:00:00.000Z",
        lots: [{ lot, family: family.id, n: 12 }],
      },
    });
    const look = () =>
      entry({ kind: "looked", body: { setting: set.id, lot, what: "candled", day: 7, live: 1 } });
    const clear = { moves: [{ lot, from: "set", to: "clear", n: 1 }], why: "candled" };
    entries.push(set, look(), look(), look(), entry({ kind: "moved", body: clear }));
    entries.push(entry({ kind: "air", body: { place: place.id, dry_c: 37.5 } }));
    lots.push(lot);
    sets.push(set.id);
  }
  return { entries, place: place.id, lots, sets };
}
