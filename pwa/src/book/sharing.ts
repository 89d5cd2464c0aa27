/**
 * What a new setting meets in the machine it is to go into: too many eggs, another temperature, moister air, turning
 * that must stop for one and go on for the other. Pure; nothing here refuses anything. Days in the holding's zone are
 * the screens' business.
 */

import { type Calendar, incubationCalendar, later, milestone } from "../trade/calendar.ts";
import { targetC } from "../trade/climate.ts";
import { setterWetF } from "../trade/setpoints.ts";
import { speciesNamed } from "../trade/species.ts";
import { UNDER_A_HEN, UNDER_A_HEN_BETTER } from "../trade/storage.ts";
import type { Place } from "./bodies.generated.ts";
import { DAY_MS } from "./moments.ts";
import { inStage, runs, type Setting, type Standing } from "./standing.ts";

/** Half a degree Fahrenheit: swings that small are tolerated (MSU, Important incubation factors). */
const SAME_WITHIN_C = 0.5 / 1.8 + 1e-9;

/** The setting that is to begin. */
export interface Newcomer {
  readonly place: string;
  /** For a place that is not in the book yet. */
  readonly role?: Place["role"];
  readonly species: string;
  readonly setAtMs: number;
  readonly n: number;
  readonly lockdownDay: number | null;
}

/**
 * One thing to know before setting. setting: the one it is about, where there is one. day: of incubation of those that
 * are disturbed. atMs: from when.
 */
export type Clash =
  | { readonly what: "full"; readonly n: number; readonly capacity: number }
  | { readonly what: "hen_full"; readonly n: number; readonly most: number; readonly better: number }
  | { readonly what: "no_turning" }
  | { readonly what: "warmth"; readonly setting: Setting; readonly newC: number; readonly theirsC: number }
  | { readonly what: "moisture"; readonly setting: Setting; readonly newF: Wet; readonly theirsF: Wet }
  | {
      readonly what: "their_lockdown" | "own_lockdown";
      readonly setting: Setting;
      readonly atMs: number;
      readonly day: number;
    }
  | { readonly what: "hen_leaves"; readonly setting: Setting; readonly days: number };

type Wet = readonly [low: number, high: number];

/** A setting with its calendar, from when it lies in the machine until its last chick is out. */
interface Stay {
  readonly setting: Setting;
  readonly calendar: Calendar;
  readonly untilMs: number;
}

/** Everything the new setting would clash with, the crowding first, then setting by setting in order of time. */
export function clashesOf(standing: Standing, newcomer: Newcomer): Clash[] {
  const place = standing.places.get(newcomer.place);
  const role = place?.role ?? newcomer.role;
  const isHen = role === "hen";
  const running = [...standing.settings.values()].filter(
    (one) => runs(one) && (one.lockedPlace ?? one.place) === newcomer.place,
  );
  // Eggs that lie in the machine take room, whether or not their days are over or known.
  const there = running.reduce((sum, one) => sum + eggsIn(one), 0);
  const others = staysOf(running).filter(({ untilMs }) => untilMs > newcomer.setAtMs);
  const found: Clash[] = [];
  const n = there + newcomer.n;
  const capacity = place?.capacity;
  if (capacity && n > capacity) found.push({ what: "full", n, capacity });
  else if (isHen && !capacity && newcomer.species === "chicken" && n > UNDER_A_HEN_BETTER.value) {
    found.push({ what: "hen_full", n, most: UNDER_A_HEN.value[1], better: UNDER_A_HEN_BETTER.value });
  }
  if (role === "hatcher") found.push({ what: "no_turning" });
  const species = speciesNamed(newcomer.species);
  if (species === undefined) return found;
  const own = incubationCalendar(species, newcomer.setAtMs, newcomer.lockdownDay);
  for (const stay of others) {
    found.push(...(isHen ? underOneHen(own, stay) : inOneMachine(newcomer, own, stay, place?.air)));
  }
  return found;
}

function staysOf(running: readonly Setting[]): Stay[] {
  const stays = running.flatMap((setting): Stay[] => {
    const species = speciesNamed(setting.species);
    if (!species) return [];
    const calendar = incubationCalendar(species, setting.setAtMs, setting.lockdownDay);
    return [{ setting, calendar, untilMs: milestone(calendar.hatchTo.atMs, 1).atMs }];
  });
  return stays.sort((a, b) => a.setting.setAtMs - b.setting.setAtMs);
}

function eggsIn(setting: Setting): number {
  return Math.max(0, inStage(setting, "set")) + Math.max(0, inStage(setting, "locked"));
}

/** She leaves the nest with the first chicks; a clutch that is more than a day behind is left to cool. */
function underOneHen(own: Calendar, { setting, calendar }: Stay): Clash[] {
  const days = Math.round(Math.abs(own.hatchFrom.atMs - calendar.hatchFrom.atMs) / DAY_MS);
  return days > 1 ? [{ what: "hen_leaves", setting, days }] : [];
}

function inOneMachine(newcomer: Newcomer, own: Calendar, stay: Stay, air?: string | null): Clash[] {
  const { setting, calendar, untilMs } = stay;
  const found: Clash[] = [];
  const apart = warmthsApart(newcomer.species, setting.species, air);
  if (apart) found.push({ what: "warmth", setting, newC: apart[0], theirsC: apart[1] });
  const newF = setterWetF(newcomer.species);
  const theirsF = setterWetF(setting.species);
  if (newF && theirsF && (newF[0] > theirsF[1] || theirsF[0] > newF[1]))
    found.push({ what: "moisture", setting, newF, theirsF });
  // Theirs stop turning while the new ones need it for more than a day longer ...
  const theirLockMs = setting.lockedAtMs ?? calendar.lockdown.atMs;
  const stoppedMs = Math.max(theirLockMs, newcomer.setAtMs);
  if (own.lockdown.atMs - stoppedMs > DAY_MS && untilMs > stoppedMs)
    found.push({ what: "their_lockdown", setting, atMs: stoppedMs, day: dayAt(newcomer.setAtMs, stoppedMs) });
  // ... or the other way round, where a species of short days is added to one of long days.
  const ownUntilMs = later(own.hatchTo.atMs, DAY_MS);
  if (theirLockMs - own.lockdown.atMs > DAY_MS && ownUntilMs > setting.setAtMs)
    found.push({
      what: "own_lockdown",
      setting,
      atMs: own.lockdown.atMs,
      day: dayAt(setting.setAtMs, own.lockdown.atMs),
    });
  return found;
}

/** What two species want of one setter, °C, where it is not the same; null where it is or is not known. */
export function warmthsApart(
  a: string,
  b: string,
  air?: string | null,
): readonly [aC: number, bC: number] | null {
  const [aC, bC] = [targetC(a, "setter", air), targetC(b, "setter", air)];
  return aC !== undefined && bC !== undefined && Math.abs(aC - bC) > SAME_WITHIN_C ? [aC, bC] : null;
}

function dayAt(setAtMs: number, atMs: number): number {
  return Math.floor((atMs - setAtMs) / DAY_MS);
}
