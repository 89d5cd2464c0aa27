/**
 * A thermometer that fed a machine and fell silent while eggs are in it: told until it speaks or is seen to. Mirrors
 * server/broodline/reports/agenda_air.py, where the rule stands, over tests/vectors/agenda.json.
 */
import table from "@tables/agenda.json";
import { dayOf, localDate } from "../trade/calendar.ts";
import { LONGEST_GAP_H, SILENT_LEAST_H, SILENT_TIMES, tier } from "../trade/climate.ts";
import { caresAt } from "./cared.ts";
import type { Chore } from "./chores.ts";
import { byAscii } from "./code-points.ts";
import { dayNumber, HOUR_MS, heldMs, momentMs } from "./moments.ts";
import { airOf, phaseAt, placeIn, root } from "./readings.ts";
import { inStage, runs, type Setting, type Standing } from "./standing.ts";

/** Readings by which the time between them is known. */
const FEWEST = 3;

/** One for each machine with eggs whose thermometer has fallen silent since they were set. */
export function airChores(standing: Standing, nowMs: number): Chore[] {
  const within = new Map<string, Setting[]>();
  for (const setting of standing.settings.values()) {
    if (!runs(setting) || setting.setAtMs > nowMs) continue;
    const place = placeIn(setting, phaseAt(setting, nowMs));
    within.set(place, [...(within.get(place) ?? []), setting]);
  }
  return [...within].flatMap(([place, settings]) =>
    silent(
      standing,
      place,
      settings.sort((a, b) => a.setAtMs - b.setAtMs || byAscii(a.id, b.id)),
      nowMs,
    ),
  );
}

function silent(standing: Standing, place: string, settings: readonly Setting[], nowMs: number): Chore[] {
  const { zone } = standing.keeper;
  const [first] = settings;
  if (first === undefined) return [];
  const own = (standing.heads.air ?? []).filter(
    ({ atMs, body }) => first.setAtMs <= atMs && atMs <= nowMs && root(standing, body.place) === place,
  );
  const spoke = own.flatMap(({ body, atMs }) => (body.by === "sensor" ? [atMs] : [])).sort((a, b) => a - b);
  const lastMs = spoke.at(-1);
  if (lastMs === undefined) return [];
  const since = localDate(nowMs, zone);
  const silenceMs = silenceAfter(spoke);
  const handMs = own.reduce((ms, { body, atMs }) => (body.by === "sensor" ? ms : Math.max(ms, atMs)), lastMs);
  if (nowMs - lastMs <= silenceMs || isSeenTo(standing, place, lastMs, nowMs)) return [];
  if (handMs > lastMs && localDate(heldMs(handMs), zone) === since) return [];
  const atMs = heldMs(lastMs + silenceMs);
  return [
    {
      task: "air",
      setting: null,
      lot: null,
      place,
      atMs,
      day: dayOf(heldMs(first.setAtMs), atMs),
      n: settings.reduce(
        (sum, one) => sum + Math.max(0, inStage(one, "set")) + Math.max(0, inStage(one, "locked")),
        0,
      ),
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
  if (spoke.length < FEWEST) return LONGEST_GAP_H * HOUR_MS;
  const gaps = spoke
    .slice(1)
    .map((ms, i) => ms - (spoke[i] ?? ms))
    .sort((a, b) => a - b);
  const middle = gaps.length / 2;
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
