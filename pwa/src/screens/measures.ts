// Temperatures and masses as the keeper reads them. Inside the book all is °C and g. Pure.
import type { Standing } from "../book/standing.ts";
import { toCelsius } from "../trade/climate.ts";

export type TemperatureUnit = "C" | "F";
export type MassUnit = "g" | "oz";

/** International avoirdupois ounce (1959). */
const GRAMS_IN_OUNCE = 28.349523125;
const DEGREE = 1.8;

export const temperatureUnit = ({ keeper }: Standing): TemperatureUnit =>
  keeper.temperature === "F" ? "F" : "C";
export const massUnit = ({ keeper }: Standing): MassUnit => (keeper.mass === "oz" ? "oz" : "g");

/** "37.6 °C" or "99.7 °F". */
export const temperatureText = (c: number, unit: TemperatureUnit): string =>
  `${inUnit(c, unit).toFixed(1)} °${unit}`;

/** The number alone, in the keeper's unit. */
export const inUnit = (c: number, unit: TemperatureUnit): number => (unit === "F" ? c * DEGREE + 32 : c);

/** A distance between two temperatures: "0.6 °C", never below zero. */
export const degreesText = (c: number, unit: TemperatureUnit): string =>
  `${Math.abs(unit === "F" ? c * DEGREE : c).toFixed(1)} °${unit}`;

/** Degrees Celsius of what was typed, to a thousandth: finer than any gauge, and a tenth of °F comes back as typed. */
export const celsiusOf = (typed: number, unit: TemperatureUnit): number =>
  thousandth(unit === "F" ? toCelsius(typed) : typed);

/** A difference that was typed, in °C. */
export const degreesOf = (typed: number, unit: TemperatureUnit): number =>
  thousandth(unit === "F" ? typed / DEGREE : typed);

/** Feet in a metre, international. */
export const FEET_IN_A_METRE = 3.280839895;

/** "1500 m", or "4921 ft" where degrees Fahrenheit are read. */
export const heightText = (m: number, unit: TemperatureUnit): string =>
  unit === "F" ? `${Math.round(m * FEET_IN_A_METRE)} ft` : `${Math.round(m)} m`;

const thousandth = (value: number) => Math.round(value * 1000) / 1000;

/** "58.4 g" or "2.06 oz". */
export const massText = (g: number, unit: MassUnit): string =>
  unit === "oz" ? `${(g / GRAMS_IN_OUNCE).toFixed(2)} oz` : `${g.toFixed(1)} g`;

/**
 * Grams of what was typed. An entry tells the scale's step by its digits, so ounces are turned into grams with no finer
 * digits than the scale had: 0.01 oz is 0.28 g and is kept to 0.1 g.
 */
export function gramsOf(typed: number, unit: MassUnit, text: string): number {
  if (unit === "g") return typed;
  const digits = text.trim().match(/[.,](\d+)$/)?.[1]?.length ?? 0;
  const step = GRAMS_IN_OUNCE / 10 ** digits;
  const unitG = 10 ** Math.floor(Math.log10(step));
  const grams = Math.round((typed * GRAMS_IN_OUNCE) / unitG) * unitG;
  return Number(grams.toFixed(Math.max(0, -Math.log10(unitG))));
}

/** As it would be typed again: without needless digits. */
export const massTyped = (g: number, unit: MassUnit): string =>
  String(unit === "oz" ? Number((g / GRAMS_IN_OUNCE).toFixed(2)) : g);
