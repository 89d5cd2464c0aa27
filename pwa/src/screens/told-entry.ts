// What an entry says, in the keeper's words. The codes of the book are never shown.
import { book, told } from "../app/words/book.ts";
import { eggs, everywhere, listed } from "../app/words/everywhere.ts";
import { regionOf } from "../app/words/region.ts";
import { rooms } from "../app/words/rooms.ts";
import { stageWords } from "../app/words/stages.ts";
import { tally } from "../app/words/tally.ts";
import type { Bodies, LotMove } from "../book/bodies.generated.ts";
import type { Entry } from "../book/entries.ts";
import type { Standing } from "../book/standing.ts";
import { standing } from "../state/standing.ts";
import { familyName, placeName } from "./names.ts";

/** The body of an entry of a kind this app reads. It was checked when it was folded; odd ones become problems. */
const bodyOf = <K extends keyof Bodies>(entry: Entry, _kind: K) =>
  entry.body as unknown as Partial<Bodies[K]>;

/** The batches an entry is about. */
export function lotsIn(entry: Entry): string[] {
  if (entry.kind === "moved") {
    const moves = bodyOf(entry, "moved").moves;
    return Array.isArray(moves) ? moves.flatMap((move) => move.lot ?? move.among ?? []) : [];
  }
  const lot = entry.body.lot;
  return typeof lot === "string" ? [lot] : [];
}

/** The setting an entry is about, or null. */
export function settingIn(entry: Entry, { lots, rootOf }: Standing): string | null {
  const named = entry.kind === "set" ? (rootOf.get(entry.id) ?? entry.id) : entry.body.setting;
  if (typeof named === "string") return rootOf.get(named) ?? named;
  return lotsIn(entry).map((lot) => lots.get(lot)?.setting)[0] ?? null;
}

export interface Part {
  readonly whose: string;
  /** 0 where a look found nothing new. */
  readonly n: number;
  readonly what: string;
}

/** What was counted, family by family. */
export function partsIn(entry: Entry, totals: Standing): Part[] {
  const region = regionOf(totals.keeper.region);
  const after = (code: string) => stageWords(code, region).after;
  const nameOf = (lot: string | null | undefined) =>
    lot ? familyName(totals, totals.lots.get(lot)?.family) : everywhere.unknownFamily;
  if (entry.kind === "looked") {
    const body = bodyOf(entry, "looked");
    const whose = nameOf(body.lot);
    if (body.none) return [{ whose, n: 0, what: told.lookNone }];
    return (["live", "unsure", "pipped"] as const)
      .filter((sees) => (body[sees] ?? 0) > 0)
      .map((sees) => ({ whose, n: body[sees] ?? 0, what: after(sees) }));
  }
  if (entry.kind !== "moved") return [];
  const body = bodyOf(entry, "moved");
  const mark = body.helped ? told.helped : body.weak ? told.weak : null;
  return arrivals(Array.isArray(body.moves) ? body.moves : []).map(({ lot, to, n }) => ({
    whose: nameOf(lot),
    n,
    what: to === "set" ? told.back : to === "hatched" && mark ? `${after(to)}, ${mark}` : after(to),
  }));
}

interface Arrival {
  readonly lot: string | null;
  readonly to: string;
  readonly n: number;
}

/** Where eggs of each batch came to rest by an entry: what only passed through a stage is not told. */
function arrivals(moves: readonly LotMove[]): Arrival[] {
  const nets = new Map<string, { lot: string | null; to: string; n: number }>();
  const add = (lot: string | null, to: string, n: number) => {
    const key = `${lot} ${to}`;
    nets.set(key, { lot, to, n: (nets.get(key)?.n ?? 0) + n });
  };
  for (const { lot = null, from, to, n } of moves) {
    add(lot, from, -n);
    add(lot, to, n);
  }
  return [...nets.values()].filter(({ n }) => n > 0);
}

/** "8 live, 1 clear": parts of the same kind added up. */
export function addUp(parts: readonly Part[]): string {
  const sums = new Map<string, number>();
  for (const { n, what } of parts) sums.set(what, (sums.get(what) ?? 0) + n);
  return [...sums].map(([what, n]) => (n === 0 ? what : told.part(n, what))).join(", ");
}

/** "1 clear": for Undo and for one line of a tally. */
export function answersIn(entry: Entry): string {
  if (entry.kind === "counted") return tally.again;
  if (entry.kind === "locked") return tally.finish.lockdown;
  return addUp(partsIn(entry, standing.value));
}

/** Whose eggs an entry is about, by family. */
export function whoseIn(entry: Entry, { lots, families }: Standing): string {
  const moves = entry.kind === "moved" ? bodyOf(entry, "moved").moves : null;
  if (Array.isArray(moves) && moves.some((move) => !move.lot)) return everywhere.unknownFamily;
  const names = lotsIn(entry).map((lot) => familyName({ families } as Standing, lots.get(lot)?.family));
  return listed([...new Set(names)]);
}

const WHY = ["lockdown", "hatch", "opened", "pulled", "brooded", "lost", "left"] as const;

/** The heading of an act: "Candling, Loft box". Entries with the same heading in a row belong together. */
export function headingOf(entry: Entry, totals: Standing): string {
  const { places, settings } = totals;
  const setting = settings.get(settingIn(entry, totals) ?? "");
  const place = placeName(totals, setting?.place);
  switch (entry.kind) {
    case "keeper":
      return told.keeper(bodyOf(entry, "keeper").holding ?? "");
    case "place": {
      const { name = "", role = "" } = bodyOf(entry, "place");
      return told.place(name, (rooms.roles as Readonly<Record<string, string>>)[role] ?? rooms.otherRole);
    }
    case "family": {
      const { name = "", breed = "" } = bodyOf(entry, "family");
      return told.family(name, breed);
    }
    case "set": {
      const body = bodyOf(entry, "set");
      const n = Array.isArray(body.lots) ? body.lots.reduce((sum, lot) => sum + lot.n, 0) : 0;
      return told.set(n, placeName({ places } as Standing, body.place));
    }
    case "locked":
      return told.locked(place);
    case "looked":
      return bodyOf(entry, "looked").what === "hatch" ? told.hatch(place) : told.candled(place);
    case "moved": {
      const { why, place: to } = bodyOf(entry, "moved");
      if (why === "candled") return told.candled(place);
      const known = WHY.find((one) => one === why);
      if (known) return told[known](place);
      return to ? told.house(placeName({ places } as Standing, to)) : told.changed(place);
    }
    case "counted": {
      const { n = 0, ledger = 0 } = bodyOf(entry, "counted");
      return told.counted(n, whoseIn(entry, totals), ledger);
    }
    default:
      return told.others[entry.kind] ?? told.newer;
  }
}

/** The batches of a `set` entry: "Rowan 14 eggs (R), Hazel 12 eggs (H)". */
export function batchesIn(entry: Entry, totals: Standing): string {
  const lots = entry.kind === "set" ? bodyOf(entry, "set").lots : null;
  if (!Array.isArray(lots)) return "";
  return lots
    .map((lot) =>
      told.line(familyName(totals, lot.family), `${eggs(lot.n)}${lot.sign ? ` (${lot.sign})` : ""}`),
    )
    .join(", ");
}

/** Who wrote it, when it was not this phone. */
export function writerOf(device: string, own: ReadonlySet<string>): string | null {
  if (own.has(device)) return null;
  if (device === "import") return book.imported;
  return device.startsWith("sensor:") ? book.sensor : book.byOther(book.otherPhone);
}
