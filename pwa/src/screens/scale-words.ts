// Weights of birds as a keeper reads them: no finer than a scale for birds tells.
import type { MassUnit } from "./measures.ts";

const GRAMS_IN_OUNCE = 28.349523125;
const OUNCES_IN_POUND = 16;
const FEW_GRAMS = 100;

/** "38.5 g", "612 g"; "1.36 oz", "1 lb 5.6 oz". */
export function birdMassText(g: number, unit: MassUnit): string {
  if (unit === "g") return g < FEW_GRAMS ? `${g.toFixed(1)} g` : `${Math.round(g)} g`;
  const ounces = g / GRAMS_IN_OUNCE;
  if (g < FEW_GRAMS) return `${ounces.toFixed(2)} oz`;
  const tenths = Math.round(ounces * 10) / 10;
  const pounds = Math.floor(tenths / OUNCES_IN_POUND);
  const rest = `${(tenths - pounds * OUNCES_IN_POUND).toFixed(1)} oz`;
  return pounds > 0 ? `${pounds} lb ${rest}` : rest;
}
