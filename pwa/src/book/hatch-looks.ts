/**
 * The looks at a hatch: what came out at each, and which eggs are pipped and in the shell. A look starts with a move into
 * hatched or a look written down, and takes in all of that setting within 30 minutes; its time is that of its last, as
 * in the server's reports.
 */
import { MINUTE_MS } from "./moments.ts";
import { outOfShell } from "./out-of-shell.ts";
import { pippedIn, pipsOf } from "./pipped.ts";
import type { Lot, Setting } from "./standing.ts";

const ONE_LOOK_MS = 30 * MINUTE_MS;

/** byLot: chicks out by lot; unknown: those whose lot is not known. out: all of them, weak and helped ones too. */
export interface HatchLook {
  readonly fromMs: number;
  readonly atMs: number;
  readonly byLot: ReadonlyMap<string, number>;
  readonly unknown: number;
  readonly out: number;
  readonly weak: number;
  readonly helped: number;
  readonly pipped: number;
}

export interface HatchSoFar {
  readonly looks: readonly HatchLook[];
  readonly firstPipMs: number | null;
  /** When the look ended at which the first and the last chick so far were seen out. */
  readonly firstOutMs: number | null;
  readonly lastOutMs: number | null;
  /** Eggs that were seen pipped at any look and are still in the shell. */
  readonly pippedNow: number;
}

type Event = {
  readonly atMs: number;
  readonly lot: string | null;
  readonly out: number;
  readonly weak: number;
  readonly helped: number;
  readonly pipped: number;
};

export function hatchSoFar(setting: Setting, lots: readonly Lot[]): HatchSoFar {
  const moves = outOfShell([...setting.among, ...lots.flatMap((lot) => lot.moves)]);
  const seen = lots.flatMap((lot) => lot.looks.filter((look) => look.what === "hatch"));
  const { byLook } = pipsOf(lots, setting.among);
  const events: Event[] = [
    ...moves.map(({ atMs, lot, n, weak, helped }) => ({
      ...{ atMs, lot, out: n, pipped: 0 },
      ...{ weak: weak ? n : 0, helped: helped ? n : 0 },
    })),
    ...seen.map(({ entry, atMs, lot }) => {
      return { atMs, lot, out: 0, weak: 0, helped: 0, pipped: byLook.get(entry) ?? 0 };
    }),
  ].sort((a, b) => a.atMs - b.atMs);
  const looks: HatchLook[] = [];
  for (let i = 0; i < events.length; ) {
    const fromMs = events[i]?.atMs ?? 0;
    const end = events.findIndex((event) => event.atMs > fromMs + ONE_LOOK_MS);
    const own = events.slice(i, end === -1 ? undefined : end);
    looks.push(lookOf(own));
    i += own.length;
  }
  const withChicks = looks.filter((look) => look.out > 0);
  return {
    looks,
    firstPipMs: seen
      .filter((look) => look.pipped > 0)
      .reduce<number | null>((first, { atMs }) => Math.min(first ?? atMs, atMs), null),
    firstOutMs: withChicks[0]?.atMs ?? null,
    lastOutMs: withChicks.at(-1)?.atMs ?? null,
    pippedNow: pippedIn(setting, lots),
  };
}

function lookOf(events: readonly Event[]): HatchLook {
  const byLot = new Map<string, number>();
  const sum = (what: "out" | "weak" | "helped" | "pipped") =>
    events.reduce((total, event) => total + event[what], 0);
  let unknown = 0;
  for (const event of events) {
    if (event.lot === null) unknown += event.out;
    else if (event.out > 0) byLot.set(event.lot, (byLot.get(event.lot) ?? 0) + event.out);
  }
  return {
    ...{ fromMs: events[0]?.atMs ?? 0, atMs: events.at(-1)?.atMs ?? 0, byLot, unknown },
    ...{ out: sum("out"), weak: sum("weak"), helped: sum("helped"), pipped: sum("pipped") },
  };
}
