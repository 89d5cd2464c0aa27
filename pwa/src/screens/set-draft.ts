// What is typed while eggs are set, until it is saved: pure, so that it can be looked at without a screen.
import type { Family, SetLot } from "../book/bodies.generated.ts";
import type { FamilyStore } from "../book/egg-store.ts";
import type { Setting, Standing } from "../book/standing.ts";
import type { FoundSoFar, SettingStart } from "../state/set-eggs.ts";
import { MOST_DAYS } from "../trade/storage.ts";

/** Stands for "not in the book yet" where an id is chosen. */
export const NEW = "new";
export const NEW_HEN = "new hen";

const USUAL = 12;

/** Eggs of one family. Texts are empty, days too, where nothing is told. */
export interface Batch {
  readonly family: string;
  /** Only for a new family. */
  readonly name: string;
  readonly breed: string;
  readonly n: number;
  readonly sign: string;
  readonly laidFrom: string;
  readonly laidTo: string;
  /** The days of laying are those of what lies in store, not told by the keeper. */
  readonly filled: boolean;
  readonly where: "own" | "bought" | "post";
  readonly who: string;
  readonly arrived: string;
  readonly oneHen: boolean;
  readonly hen: string;
  /** What a candling before today took out. */
  readonly found: FoundSoFar;
}

export type Known = readonly [id: string, family: Readonly<Family>];

const BLANK = {
  laidFrom: "",
  laidTo: "",
  filled: false,
  where: "own",
  who: "",
  arrived: "",
  oneHen: false,
  hen: "",
} as const;

/** A batch of a family, of what lies in store that is fit to set; of the usual number where the store is empty. */
export function newBatch(known: Known | undefined, store?: FamilyStore, mostDays = MOST_DAYS): Batch {
  const sign = known?.[1].sign ?? "";
  const blank = {
    ...BLANK,
    family: known?.[0] ?? NEW,
    name: "",
    breed: known?.[1].breed ?? "",
    sign,
    found: {},
  };
  return { ...blank, n: USUAL, ...fromStore(store, mostDays) };
}

/** How many eggs of up to so many days there are, laid from when to when; nothing where there are none. */
export function fromStore(
  store: FamilyStore | undefined,
  mostDays: number,
): Pick<Batch, "n" | "laidFrom" | "laidTo" | "filled"> | undefined {
  const fit = store?.parcels.filter((one) => one.ageDays <= mostDays && one.ageDays >= 0) ?? [];
  const [first, last] = [fit[0], fit.at(-1)];
  if (!first || !last) return undefined;
  return { n: fit.reduce((sum, one) => sum + one.n, 0), laidFrom: first.on, laidTo: last.on, filled: true };
}

/**
 * The batch where the eggs were set on an earlier day than it was filled in for: what was laid later cannot be among
 * them. A count that was told stays; one that came from the store follows it.
 */
export function asOf(batch: Batch, setOn: string, store: FamilyStore | undefined): Batch {
  if (!batch.filled) return batch;
  if (batch.laidFrom <= setOn && batch.laidTo <= setOn) return batch;
  const within = (to: string) => {
    const parcels = store?.parcels.filter(({ on }) => on >= batch.laidFrom && on <= to) ?? [];
    return store && fromStore({ ...store, parcels }, Number.POSITIVE_INFINITY);
  };
  const then = within(setOn);
  const n = batch.n === within(batch.laidTo)?.n ? then?.n : batch.n;
  return { ...batch, n: n ?? batch.n, laidFrom: then?.laidFrom ?? "", laidTo: then?.laidTo ?? "" };
}

/** The batches to begin with: of every family that has eggs in store, or of the first one. */
export function firstBatches(own: readonly Known[], stores: ReadonlyMap<string, FamilyStore>): Batch[] {
  const filled = own.filter(([id]) => fromStore(stores.get(id), MOST_DAYS));
  const begun = filled.length > 0 ? filled : own.slice(0, 1);
  return begun.length > 0
    ? begun.map((known) => newBatch(known, stores.get(known[0])))
    : [newBatch(undefined)];
}

/**
 * A setting's batches once more: its families and signs, as many eggs as lie in store now, else as many as then. Where a
 * family had several batches, what lies in store is divided among them as then.
 */
export function batchesAgain(
  standing: Standing,
  setting: Setting,
  stores: ReadonlyMap<string, FamilyStore>,
): Batch[] {
  const lots = setting.lots.flatMap((name) => standing.lots.get(name) ?? []);
  return lots.flatMap((lot): Batch[] => {
    const family = lot.family ? standing.families.get(lot.family) : undefined;
    if (!lot.family || !family) return [];
    const store = stores.get(lot.family);
    const batch = newBatch([lot.family, family], store);
    const stored = fromStore(store, MOST_DAYS)?.n;
    const alike = lots.filter((one) => one.family === lot.family);
    const n = stored === undefined ? lot.n : shareOf(stored, alike, alike.indexOf(lot));
    return [{ ...batch, n, sign: lot.sign ?? batch.sign }];
  });
}

/** One lot's share of so many eggs, in whole eggs by what each had; no share is below one. */
function shareOf(stored: number, lots: readonly { readonly n: number }[], at: number): number {
  const all = lots.reduce((sum, { n }) => sum + n, 0);
  const until = (end: number) =>
    Math.round((stored * lots.slice(0, end).reduce((sum, { n }) => sum + n, 0)) / all);
  return Math.max(1, until(at + 1) - until(at));
}

/** Two batches of different families with one sign: the shells could not be told apart. */
export function sameSign(batches: readonly Batch[]): readonly [Batch, Batch] | null {
  const signOf = ({ sign }: Batch) => sign.trim().toLowerCase();
  for (const [i, batch] of batches.entries()) {
    const other = batches.slice(i + 1).find((one) => signOf(one) === signOf(batch) && signOf(batch) !== "");
    if (other && (other.family !== batch.family || batch.family === NEW)) return [batch, other];
  }
  return null;
}

export type BatchFault = "family" | "count" | "who" | "swapped" | "ahead" | "found";

/** What keeps a batch from being saved; null where nothing does. setOn: the day of setting, YYYY-MM-DD. */
export function faultOf(batch: Batch, setOn: string): BatchFault | null {
  if (batch.family === NEW && !batch.name.trim()) return "family";
  if (batch.n < 1) return "count";
  if (batch.where !== "own" && !batch.who.trim()) return "who";
  if (batch.laidFrom && batch.laidTo && batch.laidFrom > batch.laidTo) return "swapped";
  if ([batch.laidFrom, batch.laidTo].some((day) => day > setOn)) return "ahead";
  return foundIn(batch) > batch.n ? "found" : null;
}

/** How many of a batch a candling before today took out. */
export function foundIn({ found }: Batch): number {
  return Object.values(found).reduce((sum, n) => sum + n, 0);
}

type LotStart = SettingStart["lots"][number];

/** The batch as the entry tells it. */
export function lotOf(batch: Batch, species: string): LotStart {
  const sign = batch.sign.trim() || null;
  const name = batch.name.trim();
  const family = { name, species, breed: batch.breed.trim() || name, sign };
  const dams: SetLot["dams"] = batch.oneHen && batch.hen ? [{ bird: batch.hen }] : null;
  const from: SetLot["from"] =
    batch.where === "own"
      ? null
      : { who: batch.who.trim(), posted: batch.where === "post", arrived: batch.arrived || null };
  return {
    family: batch.family === NEW ? family : batch.family,
    n: batch.n,
    sign,
    laid_from: batch.laidFrom || null,
    laid_to: batch.laidTo || null,
    one_hen: batch.oneHen || null,
    dams,
    from,
    found: batch.found,
  };
}
