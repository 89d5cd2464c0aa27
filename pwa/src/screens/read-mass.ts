// A bird's weight as it is typed: grams, or ounces, also as "5 lb 2.5 oz".
import { gramsOf, type MassUnit } from "./measures.ts";
import { readDecimal } from "./parts/read-number.ts";

const OUNCES_IN_POUND = 16;
const POUNDS = /^(\d+(?:[.,]\d+)?)\s*(?:lbs?|#)\s*(?:([\d.,]+)\s*(?:oz)?)?$/i;

/** Grams; null for what is no weight above zero. */
export function readBirdMass(text: string, unit: MassUnit): number | null {
  const plain = text.trim().replace(unit === "oz" ? /\s*oz$/i : /\s*g$/i, "");
  const [, pounds, ounces = ""] = unit === "oz" ? (text.trim().match(POUNDS) ?? []) : [];
  if (pounds !== undefined) {
    const whole = readDecimal(pounds);
    const rest = ounces === "" ? 0 : readOunces(ounces);
    if (!whole.ok || rest === null) return null;
    return above(gramsOf(whole.value * OUNCES_IN_POUND + rest, "oz", ounces || "0"));
  }
  const read = readDecimal(plain);
  return read.ok ? above(gramsOf(read.value, unit, plain)) : null;
}

function readOunces(text: string): number | null {
  const read = readDecimal(text);
  return read.ok ? read.value : null;
}

const above = (grams: number): number | null => (grams > 0 ? grams : null);
