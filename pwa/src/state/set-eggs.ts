import type { Bodies, Family, Place, SetLot } from "../book/bodies.generated.ts";
import type { Entry } from "../book/entries.ts";
import { DAY_MS } from "../book/moments.ts";
import { openDesk } from "./desk.ts";
import { type Draft, write } from "./recording.ts";

/** What was found when a batch was held to the light before the setting came into the book; the rest was live. */
export type FoundSoFar = Readonly<Partial<Record<"clear" | "blood_ring" | "quitter", number>>>;

export interface SettingStart {
  /** Its id, or what it is where the book does not know it yet. */
  readonly place: string | Place;
  readonly species: string;
  readonly set_at: Date;
  /** Lots without their ids, which are made here. */
  readonly lots: readonly (Omit<SetLot, "lot" | "family"> & {
    readonly family: string | Family;
    /** Passed over without `candledDay`. */
    readonly found?: FoundSoFar;
  })[];
  readonly lockdown_day?: number;
  readonly note?: string;
  /** The note in which it was planned. */
  readonly plan?: string;
  /** For a setting that runs already: the day of incubation on which it was candled. */
  readonly candledDay?: number;
  /** For a setting that runs already: the day of incubation on which turning was stopped. */
  readonly lockedDay?: number;
}

/**
 * Eggs into an incubator, with the place and the families that are new, and with what was seen so far of a setting
 * that runs already: all of it or nothing. The entry's id is the setting's; a screen that goes there at once makes it
 * beforehand.
 */
export async function startSetting(start: SettingStart, id = openDesk().ids.next()): Promise<Entry> {
  const { ids } = openDesk();
  const { species, set_at, lockdown_day, note, plan } = start;
  const founding: Draft[] = [];
  const known = <K extends "place" | "family">(kind: K, named: string | Bodies[K]): string => {
    if (typeof named === "string") return named;
    const entry = ids.next();
    founding.push({ kind, body: named, id: entry });
    return entry;
  };
  const place = known("place", start.place);
  const lots = start.lots.map(({ found: told, ...lot }) => {
    const found = start.candledDay === undefined ? undefined : told;
    return { found, set: { ...lot, family: known("family", lot.family), lot: ids.next() } };
  });
  const body = {
    place,
    species,
    set_at: set_at.toISOString(),
    lots: lots.map(({ set }) => set),
    ...(lockdown_day === undefined ? {} : { lockdown_day }),
    ...(note ? { note } : {}),
    ...(plan ? { plan } : {}),
  };
  const since = lots.map(({ set, found = {} }) => ({ lot: set.lot, n: set.n, found }));
  const written = await write([
    ...founding,
    { kind: "set", body, id, at: set_at },
    ...candled(start, id, since),
    ...lockedDown(start, id, since),
  ]);
  const entry = written.find((one) => one.id === id);
  if (!entry) throw new Error("the setting was not written");
  return entry;
}

interface Since {
  readonly lot: string;
  readonly n: number;
  readonly found: FoundSoFar;
}

const atDay = ({ set_at }: SettingStart, day: number) => new Date(set_at.getTime() + day * DAY_MS);

function outOf({ found }: Since): [to: string, n: number][] {
  return Object.entries(found).filter(([, n]) => n > 0);
}

function leftOf(since: Since): number {
  return Math.max(0, since.n - outOf(since).reduce((sum, [, n]) => sum + n, 0));
}

function candled(start: SettingStart, setting: string, lots: readonly Since[]): Draft[] {
  const day = start.candledDay;
  if (day === undefined) return [];
  const at = atDay(start, day);
  return lots.flatMap((since): Draft[] => {
    const { lot } = since;
    const moves = outOf(since).map(([to, n]) => ({ lot, from: "set", to, n }));
    const live = leftOf(since);
    return [
      ...(moves.length > 0 ? [{ kind: "moved", body: { moves, why: "candled", day }, at } as Draft] : []),
      ...(live > 0
        ? [{ kind: "looked", body: { setting, lot, what: "candled", day, live }, at } as Draft]
        : []),
    ];
  });
}

function lockedDown(start: SettingStart, setting: string, lots: readonly Since[]): Draft[] {
  const day = start.lockedDay;
  if (day === undefined) return [];
  const at = atDay(start, day);
  const moved = lots.flatMap((since): Draft[] => {
    const n = leftOf(since);
    const moves = [{ lot: since.lot, from: "set", to: "locked", n }];
    return n > 0 ? [{ kind: "moved", body: { moves, why: "lockdown" }, at }] : [];
  });
  return [{ kind: "locked", body: { setting }, at }, ...moved];
}
