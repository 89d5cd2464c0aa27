// One setting on one line of days: eggs and chicks, air, weight, power. Pure; today is an argument.

import { hatchSoFar } from "../book/hatch-looks.ts";
import { powerCutsAt } from "../book/power-cuts.ts";
import { airOf, type SettingReading, targetOf } from "../book/readings.ts";
import type { Move, Standing } from "../book/standing.ts";
import { lossOutlook, weighingsOf } from "../book/weighings.ts";
import { AMBER_ABOVE_C, AMBER_BELOW_C, tier } from "../trade/climate.ts";
import type { Mark, Reach } from "./parts/line-chart.tsx";
import type { SettingView } from "./setting-view.ts";
import { dayKey } from "./told-time.ts";

const DAY_MS = 86_400_000;
const HOUR_MS = 3_600_000;
/** Opened later than this after the last day of hatching, the line ends before it; the table has it. */
const AFTER_DAYS = 7;
/** Of a thermometer's many readings the lowest and the highest of each such span are drawn, so no peak is lost. */
const DRAWN_SPAN_H = 4;
const MOST_DRAWN = 240;

export interface Day {
  readonly atMs: number;
  readonly day: number;
  readonly looks: { readonly live: number; readonly unsure: number };
  readonly moves: readonly Move[];
}

export interface TimeLine {
  readonly endDay: number;
  readonly inShell: readonly Mark[];
  readonly hatched: readonly Mark[];
  readonly candled: readonly Mark[];
  readonly opened: readonly Mark[];
  readonly outBefore: number;
  readonly chicks: number;
  /** Hours from the first look with a chick to the last. */
  readonly spreadH: number;
  readonly air: readonly SettingReading[];
  /** Readings outside the band; null for a species whose band is not known. */
  readonly airOut: number | null;
  readonly warmth: readonly Mark[];
  readonly warmthBand: readonly Reach[];
  readonly humidity: readonly Mark[];
  readonly weights: readonly (readonly Mark[])[];
  readonly weightBand: readonly Reach[];
  readonly cuts: readonly { readonly fromDay: number; readonly toDay: number }[];
  readonly stones: readonly Stone[];
}

export interface Stone {
  readonly day: number;
  readonly what: "candle" | "lockdown" | "hatch" | "last";
}

export const IN_SHELL = ["set", "locked"];
const DEATHS = /^(infertile|dead_)/;

export const isOut = (move: Move) =>
  IN_SHELL.includes(move.source) && !IN_SHELL.includes(move.target) && move.target !== "hatched";
export const isOpened = (move: Move) => DEATHS.test(move.target) && !DEATHS.test(move.source);
const sum = (moves: readonly Move[]) => moves.reduce((n, move) => n + move.n, 0);

/** Every move of eggs of a setting, in order of time. */
export function movesOf({ setting, batches }: SettingView): Move[] {
  return [...setting.among, ...batches.flatMap((lot) => lot.moves)].sort((a, b) => a.atMs - b.atMs);
}

/** The days on which eggs were candled, taken out or opened. */
export function daysOf(view: SettingView, zone: string): Day[] {
  const days = new Map<string, { atMs: number; looks: { live: number; unsure: number }; moves: Move[] }>();
  const on = (atMs: number) => {
    const key = dayKey(atMs, zone);
    const day = days.get(key) ?? { atMs, looks: { live: 0, unsure: 0 }, moves: [] };
    days.set(key, day);
    return day;
  };
  for (const { what, atMs, live, unsure } of view.batches.flatMap((lot) => lot.looks)) {
    if (what !== "candled") continue;
    const { looks } = on(atMs);
    looks.live += live;
    looks.unsure += unsure;
  }
  for (const move of movesOf(view)) if (isOut(move) || isOpened(move)) on(move.atMs).moves.push(move);
  return [...days.values()]
    .map((day) => ({ ...day, day: (day.atMs - view.setting.setAtMs) / DAY_MS }))
    .sort((a, b) => a.atMs - b.atMs);
}

export function timeLine(standing: Standing, view: SettingView, now_ms: number): TimeLine {
  const { setting, calendar } = view;
  const at = (ms: number) => (ms - setting.setAtMs) / DAY_MS;
  const moves = movesOf(view);
  const days = daysOf(view, standing.keeper.zone);
  const looks = hatchSoFar(setting, view.batches);
  const { readings } = airOf(standing, setting, view.batches);
  const weighed = weighingsOf(standing, setting);
  const { byDay, target } = lossOutlook(setting, weighed, airOf(standing, setting, view.batches), now_ms);
  const planned = calendar ? calendar.hatchTo.day + 1 : 0;
  const ofEggs = moves.filter((move) => isOut(move) || isOpened(move) || move.target === "hatched");
  const last = Math.max(0, ...[...ofEggs, ...readings].map((one) => at(one.atMs)));
  const running = view.inShell > 0 ? at(now_ms) : 0;
  const endDay = Math.ceil(Math.max(1, planned, Math.min(Math.max(last, running), planned + AFTER_DAYS)));
  const inShell: Mark[] = [{ x: 0, y: view.eggsSet }];
  let left = view.eggsSet;
  for (const move of moves) {
    const [from, to] = [IN_SHELL.includes(move.source), IN_SHELL.includes(move.target)];
    if (from === to) continue;
    left += from ? -move.n : move.n;
    inShell.push({ x: at(move.atMs), y: left });
  }
  let chicks = 0;
  const hatched = looks.looks
    .filter((look) => look.out > 0)
    .map((look): Mark => {
      chicks += look.out;
      return { x: at(look.atMs), y: chicks };
    });
  const firstOut = looks.firstOutMs ?? Number.POSITIVE_INFINITY;
  const leftAt = (ms: number) => inShell.filter((mark) => mark.x <= at(ms) + 1e-9).at(-1)?.y ?? view.eggsSet;
  const known = readings.filter((one) => one.offC !== null);
  return {
    endDay,
    inShell: [...inShell, { x: Math.min(endDay, Math.max(last, running)), y: left }],
    hatched: chicks > 0 ? [{ x: at(firstOut), y: 0 }, ...hatched] : [],
    candled: days
      .filter(
        (day) => day.looks.live + day.looks.unsure > 0 || day.moves.some((move) => move.why === "candled"),
      )
      .map((day) => ({ x: day.day, y: leftAt(endOf(day)) })),
    opened: days
      .filter((day) => day.moves.some(isOpened))
      .map((day) => ({ x: Math.min(day.day, endDay), y: sum(day.moves.filter(isOpened)) })),
    outBefore: sum(moves.filter((move) => isOut(move) && move.atMs < firstOut)),
    chicks,
    spreadH:
      looks.firstOutMs === null ? 0 : Math.round(((looks.lastOutMs ?? 0) - looks.firstOutMs) / HOUR_MS),
    air: readings,
    airOut: known.length === 0 ? null : known.filter((one) => tier(one.offC ?? 0) !== undefined).length,
    warmth: drawn(readings.map((one) => ({ x: at(one.atMs), y: one.dryC }))),
    warmthBand: warmthBand(standing, view, endDay),
    humidity: drawn(
      readings.flatMap((one) => (one.humidityPct === null ? [] : [{ x: at(one.atMs), y: one.humidityPct }])),
    ),
    weights: [...new Set(weighed.points.map((point) => point.lot))].map((lot) =>
      weighed.points
        .filter((point) => point.lot === lot)
        .map((point) => ({ x: point.day, y: point.lossPct })),
    ),
    weightBand:
      target && byDay !== null
        ? [
            { x: 0, low: 0, high: 0 },
            { x: byDay, low: target.lowPct, high: target.highPct },
          ]
        : [],
    cuts: [setting.place, setting.lockedPlace]
      .filter((place) => place !== null)
      .flatMap((place) => powerCutsAt(standing, place))
      .map((cut) => ({ fromDay: at(cut.fromMs), toDay: at(cut.untilMs ?? now_ms) }))
      .filter((cut) => cut.toDay > 0 && cut.fromDay < endDay),
    stones: stonesOf(view),
  };
}

const endOf = (day: Day) => Math.max(day.atMs, ...day.moves.map((move) => move.atMs));

function stonesOf({ calendar, underHen }: SettingView): Stone[] {
  if (!calendar) return [];
  return [
    ...calendar.candle.map(({ day }): Stone => ({ day, what: "candle" })),
    ...(underHen ? [] : [{ day: calendar.lockdown.day, what: "lockdown" } as const]),
    { day: calendar.hatchFrom.day, what: "hatch" },
    { day: calendar.hatchTo.day + 1, what: "last" },
  ];
}

/** The band of setter and hatcher, with its step at lockdown. */
function warmthBand(standing: Standing, { setting }: SettingView, endDay: number): Reach[] {
  const turn = setting.lockedAtMs === null ? endDay : (setting.lockedAtMs - setting.setAtMs) / DAY_MS;
  const part = (phase: "setter" | "hatcher", from: number, to: number): Reach[] => {
    const middle = targetOf(standing, setting, phase);
    if (middle === undefined || to <= from) return [];
    return [from, to].map((x) => ({ x, low: middle - AMBER_BELOW_C, high: middle + AMBER_ABOVE_C }));
  };
  return [...part("setter", 0, Math.min(turn, endDay)), ...part("hatcher", turn, endDay)];
}

/** Few as they are; of many the lowest and the highest of each span, in order of time. */
function drawn(marks: readonly Mark[]): readonly Mark[] {
  if (marks.length <= MOST_DRAWN) return marks;
  const spans = new Map<number, Mark[]>();
  for (const mark of marks) {
    const key = Math.floor((mark.x * 24) / DRAWN_SPAN_H);
    spans.set(key, [...(spans.get(key) ?? []), mark]);
  }
  return [...spans.values()].flatMap((own) => {
    const byHeight = [...own].sort((a, b) => a.y - b.y);
    const ends = [byHeight[0], byHeight.at(-1)].filter((mark) => mark !== undefined);
    return [...new Set(ends)].sort((a, b) => a.x - b.x);
  });
}
