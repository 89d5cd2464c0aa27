// The line of days as a table: what was seen when, in order. Pure.
import { regionOf } from "../app/words/region.ts";
import { stageWords } from "../app/words/stages.ts";
import { timeLine as words } from "../app/words/time-line.ts";
import { weigh } from "../app/words/weigh.ts";
import { hatchSoFar } from "../book/hatch-looks.ts";
import { powerCutsAt } from "../book/power-cuts.ts";
import { airOf, type SettingReading } from "../book/readings.ts";
import type { Move, Standing } from "../book/standing.ts";
import { weighingsOf } from "../book/weighings.ts";
import { inUnit, temperatureText, temperatureUnit } from "./measures.ts";
import { batchNames, unnamedFamily } from "./names.ts";
import type { SettingView } from "./setting-view.ts";
import { daysOf, isOpened, isOut } from "./time-line-view.ts";
import { dayKey } from "./told-time.ts";

export interface TimeRow {
  readonly atMs: number;
  readonly what: string;
}

const HOUR_MS = 3_600_000;
const DAY_MS = 86_400_000;

export function timeRows(standing: Standing, view: SettingView): TimeRow[] {
  const { setting, batches } = view;
  const { rows: told } = words;
  const { zone } = standing.keeper;
  const names = batchNames(standing, batches);
  let all = 0;
  const rows: TimeRow[] = [
    { atMs: setting.setAtMs, what: told.set(view.eggsSet) },
    ...airRows(standing, view),
    ...weighingsOf(standing, setting).points.map((point) => ({
      atMs: setting.setAtMs + point.day * DAY_MS,
      what: told.weighed(
        point.lossPct.toFixed(1),
        point.lot === null ? weigh.all : (names.get(point.lot) ?? unnamedFamily(standing)),
      ),
    })),
    ...daysOf(view, zone).flatMap((day) => dayRows(standing, day)),
    ...hatchSoFar(setting, batches).looks.map((look) => {
      all += look.out;
      return { atMs: look.atMs, what: told.look(look.out, all, look.pipped) };
    }),
    ...cutsOf(standing, view),
  ];
  if (setting.lockedAtMs !== null) rows.push({ atMs: setting.lockedAtMs, what: told.locked });
  return rows.sort((a, b) => a.atMs - b.atMs);
}

function dayRows(standing: Standing, day: ReturnType<typeof daysOf>[number]): TimeRow[] {
  const region = regionOf(standing.keeper.region);
  const counted = (moves: readonly Move[]) => {
    const by = new Map<string, number>();
    for (const { target, n } of moves) by.set(target, (by.get(target) ?? 0) + n);
    return [...by].map(([stage, n]) => `${n} ${stageWords(stage, region).after}`);
  };
  const { rows: told } = words;
  const { live, unsure } = day.looks;
  const out = counted(day.moves.filter(isOut));
  const opened = counted(day.moves.filter(isOpened));
  const seen = [...(live > 0 ? [told.live(live)] : []), ...(unsure > 0 ? [told.unsure(unsure)] : [])];
  return [
    ...(seen.length + out.length > 0
      ? [`${seen.length > 0 ? told.candled : told.out}: ${[...seen, ...out].join(", ")}`]
      : []),
    ...(opened.length > 0 ? [`${told.opened}: ${opened.join(", ")}`] : []),
  ].map((what) => ({ atMs: day.atMs, what }));
}

/** One row a day: the lowest and the highest. */
function airRows(standing: Standing, view: SettingView): TimeRow[] {
  const unit = temperatureUnit(standing);
  const { readings } = airOf(standing, view.setting, view.batches);
  const keyOf = (one: SettingReading) => dayKey(one.atMs, standing.keeper.zone);
  return [...new Set(readings.map(keyOf))].map((key) => {
    const own = readings.filter((one) => keyOf(one) === key);
    const warm = own.map((one) => one.dryC);
    const moist = own.flatMap((one) => one.humidityPct ?? []);
    const [low, high] = [Math.min(...warm), Math.max(...warm)];
    const humidity =
      moist.length === 0
        ? ""
        : `${fromTo(String(Math.round(Math.min(...moist))), String(Math.round(Math.max(...moist))))} %`;
    return {
      atMs: own[0]?.atMs ?? 0,
      what: words.rows.air(
        fromTo(inUnit(low, unit).toFixed(1), temperatureText(high, unit)),
        humidity,
        own.length,
      ),
    };
  });
}

/** "37.4 to 37.9 °C", or one figure where they are one. */
function fromTo(low: string, high: string): string {
  return high.startsWith(low) ? high : `${low} to ${high}`;
}

function cutsOf(standing: Standing, { setting }: SettingView): TimeRow[] {
  const places = [...new Set([setting.place, setting.lockedPlace ?? setting.place])];
  const cuts = places.flatMap((place) => powerCutsAt(standing, place));
  const { cut, cutOpen } = words.rows;
  return cuts
    .filter((one) => one.fromMs >= setting.setAtMs)
    .map(({ fromMs, untilMs }) => ({
      atMs: fromMs,
      what: untilMs === null ? cutOpen : cut(((untilMs - fromMs) / HOUR_MS).toFixed(1)),
    }));
}
