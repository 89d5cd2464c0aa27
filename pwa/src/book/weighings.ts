/**
 * Water loss of a setting from its weighings: points, the pace, where it leads by lockdown, and what to change.
 * Mirrors server/broodline/reports/weighings.py over tests/vectors/weighings.json. Per egg and net of tare, in percent
 * of the first weighing of that tray.
 */
import { dayOf } from "../trade/calendar.ts";
import { speciesNamed } from "../trade/species.ts";
import {
  type Advice,
  advise,
  canWeighAgain,
  type LossTarget,
  lossPct,
  lossTarget,
  type Point,
  type Projection,
  project,
  scaleErrorPct,
} from "../trade/weight-loss.ts";
import { DAY_MS } from "./moments.ts";
import type { SettingAir } from "./readings.ts";
import { type Head, runs, type Setting, type Standing } from "./standing.ts";

/** Loss on a day since setting, percent of that tray's first weighing; sinceDay: the day of that first weighing. */
export interface LossPoint {
  readonly entry: string;
  readonly day: number;
  readonly lossPct: number;
  readonly lot: string | null;
  readonly sinceDay: number;
}

/** Mass of an egg net of the tray, how many lay on it, and the day since setting. */
export interface Tray {
  readonly eggG: number;
  readonly n: number;
  readonly day: number;
}

export type WeighingFault = "tare_over_gross" | "weighed_before_setting" | "weight_gained";

/**
 * points: in order of day. errorPct: what one step of the scale means in percent of the smallest tray. faults:
 * weighings that cannot be and were left out. recounted: on this day another number of eggs lay on the tray.
 */
export interface Weighings {
  readonly points: readonly LossPoint[];
  readonly errorPct: number;
  readonly stepG: number;
  readonly faults: readonly { readonly entry: string; readonly code: WeighingFault }[];
  readonly recounted: readonly { readonly day: number; readonly n: number; readonly before: number }[];
  /** The first and the last good weighing of each tray, by lot (null: all eggs together). */
  readonly trays: ReadonlyMap<string | null, { readonly first: Tray; readonly last: Tray }>;
}

/** The weighings of a setting, tray by tray. */
export function weighingsOf(standing: Standing, setting: Setting): Weighings {
  const heads = (standing.heads.eggs_weighed ?? [])
    .filter(({ body }) => (standing.rootOf.get(body.setting) ?? body.setting) === setting.id)
    .sort((a, b) => a.atMs - b.atMs || (a.id < b.id ? -1 : 1));
  const stepG = heads.reduce((least, { body }) => Math.min(least, stepOf(body)), heads[0] ? Infinity : 1);
  const trays = new Map<string | null, { first: Tray; last: Tray }>();
  const points: LossPoint[] = [];
  const faults: { entry: string; code: WeighingFault }[] = [];
  const recounted: { day: number; n: number; before: number }[] = [];
  let errorPct = 0;
  for (const head of heads) {
    const { body } = head;
    const lot = body.lot ?? null;
    const tray = trayOf(setting, head);
    const known = trays.get(lot);
    const early = faultBefore(tray, body.tare_g);
    if (early) {
      faults.push({ entry: head.id, code: early });
      continue;
    }
    const { first, last } = known ?? { first: tray, last: tray };
    if (!known) trays.set(lot, { first, last });
    errorPct = Math.max(errorPct, scaleErrorPct(stepG, first.eggG, body.n));
    if (hasGained(first, last, tray, stepG)) {
      faults.push({ entry: head.id, code: "weight_gained" });
      continue;
    }
    if (known && tray.n !== last.n) recounted.push({ day: tray.day, n: tray.n, before: last.n });
    trays.set(lot, { first, last: tray });
    points.push({
      entry: head.id,
      day: Math.max(0, tray.day),
      lossPct: lossPct(first.eggG, Math.min(tray.eggG, first.eggG)),
      lot,
      sinceDay: Math.max(0, first.day),
    });
  }
  return { points, errorPct, stepG, faults, recounted, trays };
}

/** Where the line of a setting leads, and what to change. */
export interface LossOutlook {
  readonly byDay: number | null;
  readonly target: LossTarget | null;
  /** By lockdown, with its 95 % band; null with nothing weighed after the first time. */
  readonly projection: Projection | null;
  readonly advice: Advice | null;
  /** Whether the eggs can still be weighed once more before they rest. */
  readonly again: boolean;
  /** The advice rests on a hygrometer that nobody checked this season. */
  readonly unchecked: boolean;
}

/** air: what the setting's hygrometer said. */
export function lossOutlook(
  setting: Setting,
  weighed: Weighings,
  air: SettingAir,
  nowMs: number,
): LossOutlook {
  const byDay = setting.lockdownDay ?? speciesNamed(setting.species)?.lockdownDay ?? null;
  const target = byDay === null ? null : (lossTarget(setting.species, byDay) ?? null);
  const projection =
    byDay === null ? null : (project(linePoints(weighed.points), weighed.errorPct, byDay) ?? null);
  const last = weighed.points.at(-1);
  const today = dayOf(setting.setAtMs, nowMs);
  const inSetter = runs(setting) && setting.lockedAtMs === null;
  const again = inSetter && (byDay === null || canWeighAgain(today, byDay));
  const advice =
    projection && byDay !== null && last && inSetter
      ? advise({
          species: setting.species,
          projection,
          lastDay: last.day,
          today,
          lockdown: byDay,
          humidity: air.lastHumidityPct,
        })
      : undefined;
  const rests = advice !== undefined && advice.code !== "wide" && air.lastHumidityPct !== null;
  return {
    byDay,
    target,
    projection,
    advice: advice ?? null,
    again,
    unchecked: rests && !air.humidityChecked,
  };
}

/** Whether a weighing can follow what that tray weighed before; null where it can. */
export function faultOf(
  weighed: Weighings,
  lot: string | null,
  tray: Tray,
  tareG: number,
): WeighingFault | null {
  const early = faultBefore(tray, tareG);
  if (early) return early;
  const known = weighed.trays.get(lot);
  return known && hasGained(known.first, known.last, tray, weighed.stepG) ? "weight_gained" : null;
}

/** Day and loss. Trays first weighed after day 0 are counted from their first weighing. */
export function linePoints(points: readonly LossPoint[]): Point[] {
  return points.map(({ day, sinceDay, lossPct }): Point => [sinceDay >= 1 ? day - sinceDay : day, lossPct]);
}

function faultBefore(tray: Tray, tareG: number): WeighingFault | null {
  if (tray.eggG <= 0 || tareG < 0) return "tare_over_gross";
  return tray.day < -1 ? "weighed_before_setting" : null;
}

/** Whether the same number of eggs weighs more than before, or an egg more than at first, by more than one step. */
function hasGained(first: Tray, last: Tray, tray: Tray, stepG: number): boolean {
  const heavier = last.n === tray.n && tray.eggG * tray.n > last.eggG * last.n + stepG;
  return heavier || tray.eggG > first.eggG + stepG / tray.n;
}

function trayOf(setting: Setting, { body, atMs }: Head<"eggs_weighed">): Tray {
  return {
    eggG: (body.gross_g - body.tare_g) / body.n,
    n: body.n,
    day: (atMs - setting.setAtMs) / DAY_MS,
  };
}

/** The scale's step, read off the digits it was written with: 1 g, 0.1 g, ... */
function stepOf({ gross_g, tare_g }: Head<"eggs_weighed">["body"]): number {
  return Number(`1e-${Math.max(0, placesOf(gross_g), placesOf(tare_g))}`);
}

function placesOf(reading: number): number {
  const [digits = "", exponent = "0"] = String(reading).split("e");
  return (digits.split(".")[1]?.length ?? 0) - Number(exponent);
}
