/**
 * The air readings that belong to a setting or a place, put right by gauge checks, and which gauges were checked that
 * season. Mirrors server/broodline/reports/readings.py over tests/vectors/readings.json. A reading is put right by the
 * last check of its gauge before it.
 */
import { heightM, humidityPct, NoSuchAir } from "../trade/air.ts";
import { localDate } from "../trade/calendar.ts";
import { COLDEST_C, type Stage, targetC, WARMEST_C } from "../trade/climate.ts";
import { type Head, type Lot, runs, type Setting, type Standing } from "./standing.ts";

export const GAUGES = ["dry", "wet", "humidity"] as const;
export type GaugeName = (typeof GAUGES)[number];

/** One reading, put right. corrected: a check changed it. odd: what no air gives, its humidity is then null. */
export interface AirReading {
  readonly entry: string;
  readonly atMs: number;
  readonly dryC: number;
  readonly wetC: number | null;
  readonly humidityPct: number | null;
  readonly corrected: boolean;
  readonly odd: "wet_bulb" | "humidity" | null;
}

/** A reading held against a setting's target; offC: null for a species without one. */
export interface SettingReading extends AirReading {
  readonly phase: Stage;
  readonly offC: number | null;
}

/** A gauge that was read. checkedMs: its last check of that season, null where there was none. */
export interface Gauge {
  readonly place: string;
  readonly name: GaugeName;
  readonly checkedMs: number | null;
  readonly off: number | null;
}

export interface SettingAir {
  readonly readings: readonly SettingReading[];
  readonly gauges: readonly Gauge[];
  /** Entries with a temperature that no machine with eggs in it has; they are left out. */
  readonly unreadable: readonly string[];
  readonly lastHumidityPct: number | null;
  /** Whether every gauge behind the humidity was checked that season. */
  readonly humidityChecked: boolean;
}

/** All readings at a place, in order of time. */
export function readingsAt(standing: Standing, place: string): AirReading[] {
  const here = (standing.heads.air ?? []).filter((head) => root(standing, head.body.place) === place);
  return sorted(here.filter(isReadable)).map((head) => reading(standing, head));
}

/** The readings that belong to a setting: from setting to lockdown at its place, then at the hatcher to the end. */
export function airOf(standing: Standing, setting: Setting, lots: readonly Lot[]): SettingAir {
  const endMs = endOf(setting, lots);
  const all = sorted(
    (standing.heads.air ?? []).filter((head) => {
      const here = root(standing, head.body.place) === placeIn(setting, phaseAt(setting, head.atMs));
      return here && head.atMs >= setting.setAtMs && (endMs === null || head.atMs <= endMs);
    }),
  );
  const heads = all.filter(isReadable);
  const readings = heads.map((head): SettingReading => {
    const phase = phaseAt(setting, head.atMs);
    const put = reading(standing, head);
    const target = targetOf(standing, setting, phase);
    return { ...put, phase, offC: target === undefined ? null : put.dryC - target };
  });
  const gauges = gaugesOf(standing, heads, setting.setAtMs);
  const byBulbs = gauges.some((gauge) => gauge.name === "wet");
  return {
    readings,
    gauges,
    unreadable: all.filter((head) => !isReadable(head)).map(({ id }) => id),
    lastHumidityPct: readings.flatMap((one) => one.humidityPct ?? []).at(-1) ?? null,
    humidityChecked: gauges
      .filter((gauge) => gauge.name !== "dry" || byBulbs)
      .every((gauge) => gauge.checkedMs !== null),
  };
}

/** The target of the dry bulb for a setting in a phase, °C; undefined for a species without one. */
export function targetOf(standing: Standing, setting: Setting, phase: Stage): number | undefined {
  return targetC(setting.species, phase, standing.places.get(root(standing, placeIn(setting, phase)))?.air);
}

/** Setter until lockdown, hatcher from then on. */
export function phaseAt(setting: Setting, atMs: number): Stage {
  return setting.lockedAtMs !== null && atMs >= setting.lockedAtMs ? "hatcher" : "setter";
}

/** Where the eggs stood in that phase. */
export function placeIn(setting: Setting, phase: Stage): string {
  return phase === "hatcher" ? (setting.lockedPlace ?? setting.place) : setting.place;
}

/** The last check of a gauge at a place up to a moment. */
export function lastCheck(
  standing: Standing,
  place: string,
  gauge: GaugeName,
  byMs = Number.POSITIVE_INFINITY,
): Head<"gauge_checked"> | undefined {
  return sorted(
    (standing.heads.gauge_checked ?? []).filter(
      ({ body, atMs }) => body.gauge === gauge && atMs <= byMs && root(standing, body.place) === place,
    ),
  ).at(-1);
}

/** The season a moment falls in, named by the year it starts in. Mirrors reports/season_year.py. */
export function seasonOf({ keeper }: Standing, atMs: number): number {
  const date = localDate(atMs, keeper.zone);
  const year = Number(date.slice(0, 4));
  return Number(date.slice(5, 7)) >= (keeper.season_starts ?? 1) ? year : year - 1;
}

/** When the last egg left setter or hatcher; null while one is there. */
function endOf(setting: Setting, lots: readonly Lot[]): number | null {
  if (runs(setting)) return null;
  const moves = [...setting.among, ...lots.flatMap((lot) => lot.moves)];
  const left = moves.filter((move) => move.source === "set" || move.source === "locked");
  return left.length === 0
    ? null
    : left.reduce((last, move) => Math.max(last, move.atMs), left[0]?.atMs ?? 0);
}

function reading(standing: Standing, head: Head<"air">): AirReading {
  const { dry_c, wet_c, humidity_pct } = head.body;
  const place = root(standing, head.body.place);
  const right = (gauge: GaugeName, value: number) => {
    const check = lastCheck(standing, place, gauge, head.atMs);
    return check ? value + offOf(check) : value;
  };
  const dryC = right("dry", dry_c);
  const wetC = wet_c == null ? null : right("wet", wet_c);
  const written = humidity_pct == null ? null : right("humidity", humidity_pct);
  const found = humidityOf(dryC, wetC, written, heightM(standing.keeper.altitude_m));
  return {
    entry: head.id,
    atMs: head.atMs,
    dryC,
    wetC,
    ...found,
    corrected: dryC !== dry_c || wetC !== (wet_c ?? null) || written !== (humidity_pct ?? null),
  };
}

function isReadable({ body }: Head<"air">): boolean {
  return body.dry_c >= COLDEST_C && body.dry_c <= WARMEST_C;
}

function humidityOf(
  dryC: number,
  wetC: number | null,
  written: number | null,
  altitudeM: number,
): Pick<AirReading, "humidityPct" | "odd"> {
  if (written !== null) {
    return written >= 0 && written <= 100
      ? { humidityPct: written, odd: null }
      : { humidityPct: null, odd: "humidity" };
  }
  if (wetC === null) return { humidityPct: null, odd: null };
  try {
    return { humidityPct: humidityPct(dryC, wetC, altitudeM), odd: null };
  } catch (fault) {
    if (fault instanceof NoSuchAir) return { humidityPct: null, odd: "wet_bulb" };
    throw fault;
  }
}

const offOf = ({ body }: Head<"gauge_checked">) => body.true_value - body.reads;

/** Every gauge that was read, with its last check of that season before its last reading. */
function gaugesOf(standing: Standing, heads: readonly Head<"air">[], setAtMs: number): Gauge[] {
  const last = new Map<string, { place: string; name: GaugeName; atMs: number }>();
  for (const { body, atMs } of heads) {
    const place = root(standing, body.place);
    const values = { dry: body.dry_c, wet: body.wet_c, humidity: body.humidity_pct };
    for (const name of GAUGES) if (values[name] != null) last.set(`${place} ${name}`, { place, name, atMs });
  }
  const season = seasonOf(standing, setAtMs);
  return [...last.values()].map(({ place, name, atMs }) => {
    const check = lastCheck(standing, place, name, atMs);
    const counts = check !== undefined && seasonOf(standing, check.atMs) === season;
    return { place, name, checkedMs: counts ? check.atMs : null, off: counts ? offOf(check) : null };
  });
}

function sorted<H extends Head>(heads: readonly H[]): H[] {
  return [...heads].sort((a, b) => a.atMs - b.atMs || (a.id < b.id ? -1 : 1));
}

/** The identity behind any id of a tree. */
export function root(standing: Standing, name: string): string {
  return standing.rootOf.get(name) ?? name;
}
