// The heading under which an entry stands in the book, and what else its line says.

import { book, told } from "../app/words/book.ts";
import { chores } from "../app/words/chores.ts";
import { eggs } from "../app/words/everywhere.ts";
import { rooms } from "../app/words/rooms.ts";
import { toldBirds } from "../app/words/told-birds.ts";
import type { Entry } from "../book/entries.ts";
import { happenedMs } from "../book/moments.ts";
import { ownWords } from "../book/own-words.ts";
import type { Standing } from "../book/standing.ts";
import { familyName, placeName } from "./names.ts";
import { birdHeading } from "./told-birds.ts";
import { careWords, checkWords } from "./told-brood.ts";
import { eggsHeading } from "./told-eggs.ts";
import { bodyOf, lotsIn, whoseIn } from "./told-entry.ts";
import { machineHeading } from "./told-machine.ts";

/** The setting an entry is about, or null. */
export function settingIn(entry: Entry, totals: Standing): string | null {
  const { lots, rootOf } = totals;
  const named = entry.kind === "set" ? (rootOf.get(entry.id) ?? entry.id) : entry.body.setting;
  if (typeof named === "string") return rootOf.get(named) ?? named;
  const about = entry.kind === "photo" ? bodyOf(entry, "photo").about : null;
  if (typeof about === "string") return settingOf(about, totals);
  return lotsIn(entry).map((lot) => lots.get(lot)?.setting)[0] ?? null;
}

/** The setting that something is of: itself, or a batch of it; null for anything else. */
export function settingOf(about: string, { lots, rootOf, settings }: Standing): string | null {
  const root = rootOf.get(about) ?? about;
  return settings.has(root) ? root : (lots.get(about)?.setting ?? null);
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
      return told.family(name, breed, ownWords(totals.keeper.words));
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
      const { why, place: to, moves } = bodyOf(entry, "moved");
      if (!why && Array.isArray(moves) && moves.some((move) => move.to === "flock")) return toldBirds.kept;
      if (to && (why === "pulled" || why === "brooded"))
        return told.house(placeName({ places } as Standing, to));
      if (why === "candled") return told.candled(place);
      const known = WHY.find((one) => one === why);
      if (known) return told[known](place);
      return to ? told.house(placeName({ places } as Standing, to)) : told.changed(place);
    }
    case "counted": {
      const { n = 0, ledger = 0 } = bodyOf(entry, "counted");
      return told.counted(n, whoseIn(entry, totals), ledger);
    }
    case "care": {
      const body = bodyOf(entry, "care");
      const { zone } = totals.keeper;
      const what = careWords({ task: "", on: "", ...body }, happenedMs(entry.at, entry.skew_ms), zone);
      return what === null ? (told.others.care ?? told.newer) : atPlace(what, body.place, totals);
    }
    case "brooder_check": {
      const body = bodyOf(entry, "brooder_check");
      return atPlace(checkWords({ place: "", ...body }, totals), body.place, totals);
    }
    default:
      return (
        machineHeading(entry, totals) ??
        eggsHeading(entry, totals) ??
        birdHeading(entry, totals) ??
        told.others[entry.kind] ??
        told.newer
      );
  }
}

const atPlace = (what: string, place: string | null | undefined, totals: Standing) =>
  place ? chores.at(what, placeName(totals, totals.rootOf.get(place) ?? place)) : what;

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
