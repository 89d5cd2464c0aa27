// The last air reading of a machine against what its eggs want. Pure; today is an argument.
import { type AirReading, lastCheck, phaseAt, readingsAt, seasonOf, targetOf } from "../book/readings.ts";
import type { Standing } from "../book/standing.ts";
import { AMBER_ABOVE_C, AMBER_BELOW_C, type Stage, type Tier, tier } from "../trade/climate.ts";
import type { Range } from "../trade/species.ts";
import { humidityAllowed } from "../trade/weight-loss.ts";
import type { SettingView } from "./setting-view.ts";

/** What one species wants in one stage, and how far the last reading is from it. */
export interface Wanted {
  readonly species: string;
  readonly stage: Stage;
  readonly targetC: number | null;
  readonly bandC: Range | null;
  readonly humidity: Range;
  readonly offC: number | null;
  readonly tier: Tier | null;
  readonly way: "hot" | "cold" | null;
  readonly air: "dry" | "moist" | null;
  /** Nothing was read since these eggs came into this stage, so nothing is judged. */
  readonly unread: boolean;
}

export interface AirView {
  readonly readings: readonly AirReading[];
  readonly last: AirReading | null;
  readonly wanted: readonly Wanted[];
  /** Gauges the last reading was made with that nobody checked this season. */
  readonly unchecked: readonly ("dry" | "wet" | "humidity")[];
}

/** views: the running settings whose eggs lie in this machine now. */
export function airView(
  standing: Standing,
  place: string,
  views: readonly SettingView[],
  now_ms: number,
): AirView {
  const readings = readingsAt(standing, place);
  const last = readings.at(-1) ?? null;
  const wanted = new Map<string, Wanted>();
  for (const { setting } of views) {
    const stage = phaseAt(setting, now_ms);
    const key = `${setting.species} ${stage}`;
    if (!wanted.has(key)) {
      const since = stage === "hatcher" ? (setting.lockedAtMs ?? setting.setAtMs) : setting.setAtMs;
      const target = targetOf(standing, setting, stage) ?? null;
      wanted.set(
        key,
        wantedOf(
          setting.species,
          stage,
          target,
          readings.filter((one) => one.atMs >= since),
        ),
      );
    }
  }
  return {
    readings,
    last,
    wanted: [...wanted.values()],
    unchecked: last ? uncheckedOf(standing, place, last, now_ms) : [],
  };
}

function wantedOf(
  species: string,
  stage: Stage,
  targetC: number | null,
  readings: readonly AirReading[],
): Wanted {
  const last = readings.at(-1);
  const offC = last && targetC !== null ? last.dryC - targetC : null;
  const found = offC === null || targetC === null ? null : (tier(offC, hoursCold(readings, targetC)) ?? null);
  const humidity = humidityAllowed(species, stage);
  const pct = last?.humidityPct ?? null;
  return {
    species,
    stage,
    unread: last === undefined,
    targetC,
    bandC: targetC === null ? null : [targetC - AMBER_BELOW_C, targetC + AMBER_ABOVE_C],
    humidity,
    offC,
    tier: found,
    way: found === null || offC === null ? null : offC > 0 ? "hot" : "cold",
    air:
      pct === null
        ? null
        : pct < humidity[0] - SLACK_PCT
          ? "dry"
          : pct > humidity[1] + SLACK_PCT
            ? "moist"
            : null,
  };
}

/** Half a point: no gauge of a keeper tells less. */
const SLACK_PCT = 0.5;
const HOUR_MS = 3_600_000;

/** Hours from the first to the last of the readings below the band that end with the last one. */
function hoursCold(readings: readonly AirReading[], targetC: number): number {
  const end = readings.at(-1);
  let from = end;
  for (let i = readings.length - 1; i >= 0; i -= 1) {
    const one = readings[i];
    if (!one || one.dryC >= targetC - AMBER_BELOW_C) break;
    from = one;
  }
  return end && from ? (end.atMs - from.atMs) / HOUR_MS : 0;
}

function uncheckedOf(standing: Standing, place: string, last: AirReading, now_ms: number) {
  const season = seasonOf(standing, now_ms);
  const used = [
    "dry",
    last.wetC === null ? null : "wet",
    last.wetC === null && last.humidityPct !== null ? "humidity" : null,
  ] as const;
  return used
    .filter((gauge) => gauge !== null)
    .filter((gauge) => {
      const check = lastCheck(standing, place, gauge);
      return check === undefined || seasonOf(standing, check.atMs) !== season;
    });
}
