/**
 * A thermometer that fed a machine and fell silent while eggs are in it: told until it speaks or is seen to. Mirrors
 * server/broodline/reports/agenda_air.py, where the rule stands, over tests/vectors/agenda.json.
 */
import table from "@tables/agenda.json";
import { dayOf, localDate } from "../trade/calendar.ts";
import { LONGEST_GAP_H, SILENT_LEAST_H, SILENT_TIMES, tier } from "../trade/climate.ts";
import { caresAt } from "./cared.ts";
import type { Chore } from "./chores.ts";
import { dayNumber, HOUR_MS, heldMs, momentMs } from "./moments.ts";
import { airOf, phaseAt, placeIn, root } from "./readings.ts";
import { inStage, runs, type Setting, type Standing } from "./standing.ts";

/** One for each machine with eggs whose thermometer has fallen silent since they were set. */
export function airChores(standing: Standing, nowMs: number): Chore[] {
  const within = new Map<string, Setting[]>();
  for (const setting of standing.settings.values()) {
    if (!runs(setting) || setting.setAtMs > nowMs) continue;
    const place = placeIn(setting, phaseAt(setting, nowMs));
    within.set(place, [...(within.get(place) ?? []), setting]);
  }
  return [...within].flatMap(([place, settings]) => silent(standing, place, settings, nowMs));
}

function silent(standing: Standing, place: string, settings: readonly Setting[], nowMs: number): Chore[] {
  const { zone } = standing.keeper;
  const setAtMs = Math.min(...settings.map((one) => one.setAtMs));
  const times = (isSensor: boolean) =>
    (standing.heads.air ?? [])
      .filter(({ body }) => (body.by === "sensor") === isSensor && root(standing, body.place) === place)
      .flatMap(({ atMs }) => (setAtMs <= atMs && atMs <= nowMs ? [atMs] : []))
      .sort((a, b) => a - b);
  const spoke = times(true);
  const lastMs = spoke.at(-1);
  if (lastMs === undefined) return [];
  const atMs = lastMs + silenceAfter(spoke);
  if (nowMs <= atMs || isSeenTo(standing, place, lastMs, nowMs)) return [];
  const since = localDate(nowMs, zone);
  const handMs = times(false).at(-1) ?? 0;
  if (handMs > lastMs && localDate(handMs, zone) === since) return [];
  const eggs = settings.flatMap((one) => [inStage(one, "set"), inStage(one, "locked")]);
  return [
    {
      task: "air",
      setting: null,
      lot: null,
      place,
      atMs,
      day: dayOf(setAtMs, atMs),
      n: eggs.reduce((sum, n) => sum + Math.max(0, n), 0),
      since,
      due: localDate(atMs, zone),
      figure: lasted(nowMs - lastMs) + graver(standing, settings),
    },
  ];
}

/** Whether a keeper's care of the air there holds now. lastMs: of the last reading there. */
function isSeenTo(standing: Standing, place: string, lastMs: number, nowMs: number): boolean {
  const { zone } = standing.keeper;
  const today = localDate(nowMs, zone);
  return caresAt(standing, place).some(({ body: { task, on }, atMs }) => {
    if (task !== "air") return false;
    if (dayNumber(on) === null) return (momentMs(on) ?? 0) > nowMs;
    return on >= today && (on > localDate(heldMs(atMs), zone) || atMs >= lastMs);
  });
}

/** From when on it is silent, after readings at these times, in order. */
function silenceAfter(spoke: readonly number[]): number {
  const gaps = spoke
    .slice(1)
    .map((ms, i) => ms - (spoke[i] ?? ms))
    .sort((a, b) => a - b);
  const middle = gaps.length / 2;
  if (middle < 1) return LONGEST_GAP_H * HOUR_MS;
  const usual = ((gaps[Math.ceil(middle) - 1] ?? 0) + (gaps[Math.floor(middle)] ?? 0)) / 2;
  return Math.max(SILENT_LEAST_H * HOUR_MS, Math.floor(SILENT_TIMES * usual));
}

function lasted(ms: number): string {
  const hours = Math.floor(ms / HOUR_MS);
  const [n, one] = hours < 48 ? [hours, "hour"] : [Math.floor(hours / 24), "day"];
  return `${n} ${one}${n === 1 ? "" : "s"}`;
}

/** What the last reading said, where that was red for one of these. */
function graver(standing: Standing, settings: readonly Setting[]): string {
  const { hot, cold } = table.tasks.air;
  for (const setting of settings) {
    const lots = setting.lots.flatMap((lot) => standing.lots.get(lot) ?? []);
    const offC = airOf(standing, setting, lots).readings.at(-1)?.offC ?? null;
    if (offC !== null && tier(offC, Number.POSITIVE_INFINITY) === "red") return offC > 0 ? hot : cold;
  }
  return "";
}
