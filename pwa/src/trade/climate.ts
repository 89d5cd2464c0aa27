/**
 * The target temperature for a species, machine and stage, and how bad it is to stray from it. Mirrors
 * server/broodline/trade/climate.py over tests/vectors/climate.json. Tiers are distances from the target, so that a
 * still-air box at its own right temperature is in order. Our judgement.
 */
import alarms from "@tables/alarms.json";
import setpoints from "@tables/setpoints.json";

export type Stage = "setter" | "hatcher";
export type Tier = "amber" | "red";

type Setpoint = { readonly value: number; readonly source: string; readonly status: string };
type Setpoints = Readonly<Record<`${Stage}_dry`, readonly Setpoint[]>>;

const ROWS = new Map(Object.entries(setpoints.species as unknown as Readonly<Record<string, Setpoints>>));
const { tiers } = alarms;
const DEGREE = 1.8;
const SLACK = 1e-9;

export const AMBER_ABOVE_C = tiers.amber_above.value / DEGREE;
export const AMBER_BELOW_C = tiers.amber_below.value / DEGREE;
const RED_ABOVE_C = tiers.red_above.value / DEGREE;
const RED_BELOW_C = tiers.red_below.value / DEGREE;

/** Readings further apart say nothing of the time between; a thermometer is silent so many times its usual spacing. */
export const LONGEST_GAP_H = tiers.longest_gap.value;
export const SILENT_TIMES = tiers.silent_times.value;
export const SILENT_LEAST_H = tiers.silent_least.value;

/** Between these, °C, a machine with eggs can be at all; a reading beyond them was mistyped. */
export const [COLDEST_C = 0, WARMEST_C = 0] = tiers.readable.value;

/** What still air needs more than forced air, read at the top of the eggs. */
export const STILL_AIR_MORE_C = tiers.still_air_more.value / DEGREE;

/** Degrees Celsius of a temperature in Fahrenheit. */
export function toCelsius(fahrenheit: number): number {
  return (fahrenheit - 32) / DEGREE;
}

/**
 * Target of the dry bulb, °C; air "still" adds what egg-top level in still air needs. Undefined for a species the
 * tables do not know.
 */
export function targetC(species: string, stage: Stage, air?: string | null): number | undefined {
  const chosen = ROWS.get(species)?.[`${stage}_dry`][0];
  if (chosen === undefined) return undefined;
  return toCelsius(chosen.value + (air === "still" ? tiers.still_air_more.value : 0));
}

/** How bad it is to be offC from the target (above is positive) for so many hours; undefined within the band. */
export function tier(offC: number, hours = 0): Tier | undefined {
  const isChilled = offC < -RED_BELOW_C - SLACK && hours > tiers.red_below_after.value;
  if (offC >= RED_ABOVE_C - SLACK || isChilled) return "red";
  return offC > AMBER_ABOVE_C + SLACK || offC < -AMBER_BELOW_C - SLACK ? "amber" : undefined;
}

/** Where the target of a species and stage was read, and how far that can be trusted; undefined without a target. */
export function targetSource(species: string, stage: Stage): Omit<Setpoint, "value"> | undefined {
  return ROWS.get(species)?.[`${stage}_dry`][0];
}
