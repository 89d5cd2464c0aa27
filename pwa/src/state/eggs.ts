import type { EggsOut } from "../book/bodies.generated.ts";
import type { Entry } from "../book/entries.ts";
import { type Draft, write } from "./recording.ts";

/** What one round brought in of one family. */
export interface Collected {
  readonly family: string;
  readonly n: number;
  readonly kept: number;
  readonly dam?: string;
}

/**
 * Eggs gathered on a day (YYYY-MM-DD), one entry for each family, all or none. A family of which nothing was found is
 * left out: no entry is not the same as none laid.
 */
export function gatherEggs(on: string, found: readonly Collected[], store?: string): Promise<Entry[]> {
  const drafts = found
    .filter(({ n }) => n > 0)
    .map((one): Draft => ({ kind: "gathered", body: { ...one, on, ...(store ? { store } : {}) } }));
  return drafts.length > 0 ? write(drafts) : Promise.resolve([]);
}

/** Eggs that leave the store unset. */
export function eggsLeave(body: EggsOut): Promise<Entry[]> {
  return write([{ kind: "eggs_out", body }]);
}
