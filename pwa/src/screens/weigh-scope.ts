// Whom a keeper weighs: a batch, all in a place, or the birds kept of a family. Pure.

import { birds as birdWords } from "../app/words/birds.ts";
import { young } from "../app/words/species.ts";
import { weighing as words } from "../app/words/weights.ts";
import type { OneBird } from "../book/birds.ts";
import { lotOf } from "../book/birds.ts";
import { hatchedMs } from "../book/hatch-day.ts";
import { heldMs } from "../book/moments.ts";
import { namedYoung } from "../book/named-young.ts";
import { birdsIn } from "../book/pen-of.ts";
import type { Lot, Standing } from "../book/standing.ts";
import { broods } from "../book/whereabouts.ts";
import { mayGo } from "../state/birds.ts";
import { familyOfBird } from "./bird-view.ts";
import { batchName, placeName } from "./names.ts";
import { dayInYear } from "./told-day.ts";
import { dayKey } from "./told-time.ts";

/** key: as the address names it. lots: batches whose chicks may lie on the scales; birds: those known by themselves. */
export interface Scope {
  readonly key: string;
  readonly text: string;
  readonly lots: readonly Lot[];
  readonly birds: readonly OneBird[];
}

/** All that can be weighed now: batches first, the youngest foremost, then places with young or penned birds, then families. */
export function scopesOf(totals: Standing, birds: readonly OneBird[], today: string): Scope[] {
  const here = birds.filter((one) => one.where === "here");
  return [...ofLots(totals, here, today), ...ofPlaces(totals, here, today), ...ofFamilies(totals, here)];
}

/** The scope that an address asks for: "lot:…", "place:…", "family:…", or "bird:…", which opens the bird's own. */
export function scopeAsked(scopes: readonly Scope[], asked: string | null): Scope | undefined {
  const bird = asked?.startsWith("bird:") ? asked.slice("bird:".length) : null;
  if (bird === null) return scopes.find(({ key }) => key === asked);
  const own = scopes.filter((scope) => scope.birds.some(({ id }) => id === bird));
  return own.find(({ key }) => key.startsWith("lot:")) ?? own[0];
}

function ofLots(totals: Standing, here: readonly OneBird[], today: string): Scope[] {
  const found = [...totals.lots.values()].flatMap((lot) => {
    const own = here.filter(({ body }) => lotOf(body) === lot.id);
    const chicks = mayGo(lot) - namedYoung(totals, lot);
    const n = chicks + own.length;
    if (n === 0) return [];
    const species =
      totals.settings.get(lot.setting ?? "")?.species ??
      totals.families.get(lot.family ?? "")?.species ??
      "chicken";
    const bornMs = hatchedMs(totals, lot);
    const hatched = bornMs === null ? "" : dayInYear(dayKey(heldMs(bornMs), totals.keeper.zone), today);
    const many = chicks > 0 ? young(n, species) : birdWords.plain(n);
    const text = words.batch(batchName(totals, lot), many, hatched);
    return [{ bornMs: bornMs ?? 0, scope: { key: `lot:${lot.id}`, text, lots: [lot], birds: own } }];
  });
  return found.sort((a, b) => b.bornMs - a.bornMs).map(({ scope }) => scope);
}

function ofPlaces(totals: Standing, here: readonly OneBird[], today: string): Scope[] {
  const every = broods(totals);
  return [...totals.places.keys()].flatMap((place) => {
    const names = every.flatMap((one) => (one.place === place ? [one.lot, ...one.among] : []));
    const lots = [...new Set(names)].flatMap((name) => totals.lots.get(name) ?? []);
    const inside = new Set(birdsIn(totals, place, today));
    const penned = here.filter(({ id }) => inside.has(id));
    if (lots.length + penned.length === 0) return [];
    return [{ key: `place:${place}`, text: words.inPlace(placeName(totals, place)), lots, birds: penned }];
  });
}

function ofFamilies(totals: Standing, here: readonly OneBird[]): Scope[] {
  const families = new Map<string, OneBird[]>();
  for (const one of here) {
    const family = one.body.family ?? "";
    families.set(family, [...(families.get(family) ?? []), one]);
  }
  return [...families].map(([family, own]) => ({
    key: `family:${family}`,
    text: words.birdsOf(own[0] ? familyOfBird(totals, own[0]) : ""),
    lots: [],
    birds: own,
  }));
}
