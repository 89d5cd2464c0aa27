// Temperatures as the keeper reads them: published in °F, shown in the unit chosen.
import { toCelsius } from "../trade/climate.ts";

/** "13–20 °C" or "55–68 °F" of a figure in °F, to the whole degree. */
export function warmthTold(fahrenheit: number | readonly [number, number], unit: "C" | "F"): string {
  const one = (value: number) => String(Math.round(unit === "F" ? value : toCelsius(value)));
  const told = typeof fahrenheit === "number" ? one(fahrenheit) : fahrenheit.map(one).join("–");
  return `${told} °${unit}`;
}

/** "37.5 °C" or "99.5 °F" of a temperature in °C, to the tenth. */
export function degreesTold(celsius: number, unit: "C" | "F"): string {
  return `${(unit === "F" ? celsius * 1.8 + 32 : celsius).toFixed(1)} °${unit}`;
}
