// What is typed about the air, read as figures or refused in words. Pure.
import { air as words } from "../app/words/air.ts";
import type { Air } from "../book/bodies.generated.ts";
import { readingsAt } from "../book/readings.ts";
import type { Standing } from "../book/standing.ts";
import { humidityPct, NoSuchAir } from "../trade/air.ts";
import { celsiusOf, type TemperatureUnit } from "./measures.ts";
import { measured, numberFault } from "./parts/measure-field.tsx";
import { type Moment, NOW } from "./parts/moment.ts";

/** With which gauges the air is read. */
export type Way = "wet" | "humidity" | "dry";

export interface AirForm {
  readonly way: Way;
  readonly dry: string;
  readonly wet: string;
  readonly humidity: string;
  readonly moment: Moment;
}

type Fields = "dry" | "wet" | "humidity";

/** Nothing typed yet; read with the gauges of the last time. */
export function emptyForm(standing: Standing, place: string): AirForm {
  const last = readingsAt(standing, place).at(-1);
  const way: Way = !last || last.wetC !== null ? "wet" : last.humidityPct !== null ? "humidity" : "dry";
  return { way, dry: "", wet: "", humidity: "", moment: NOW };
}

/** Colder or warmer than any machine with eggs ever is: the unit or a digit is wrong. */
const COLDEST_C = 5;
const WARMEST_C = 50;

/** What is wrong with each field; null where it can be. */
export function faultsOf(
  form: AirForm,
  unit: TemperatureUnit,
  altitudeM: number,
): Readonly<Record<Fields, string | null>> {
  const dry = temperatureFault(form.dry, unit, COLDEST_C);
  const wet =
    form.way === "wet" ? (temperatureFault(form.wet, unit, 0) ?? bulbFault(form, unit, altitudeM)) : null;
  return { dry, wet, humidity: form.way === "humidity" ? humidityFault(form.humidity) : null };
}

/** The reading as it goes into the book, with the humidity it gives; null while something is wrong. */
export function readForm(
  form: AirForm,
  unit: TemperatureUnit,
  altitudeM: number,
): { readonly body: Omit<Air, "place">; readonly humidityPct: number | null } | null {
  const faults = faultsOf(form, unit, altitudeM);
  const dry = measured(form.dry);
  if (faults.dry || faults.wet || faults.humidity || dry === null) return null;
  const dry_c = celsiusOf(dry, unit);
  const wet = measured(form.wet);
  const humidity = measured(form.humidity);
  if (form.way === "wet" && wet !== null) {
    const wet_c = celsiusOf(wet, unit);
    return { body: { dry_c, wet_c }, humidityPct: humidityPct(dry_c, wet_c, altitudeM) };
  }
  if (form.way === "humidity" && humidity !== null) {
    return { body: { dry_c, humidity_pct: humidity }, humidityPct: humidity };
  }
  return { body: { dry_c }, humidityPct: null };
}

function temperatureFault(text: string, unit: TemperatureUnit, coldest_c: number): string | null {
  const fault = numberFault(text, words.fault);
  const typed = measured(text);
  if (fault || typed === null) return fault;
  const c = celsiusOf(typed, unit);
  return c < coldest_c || c > WARMEST_C ? words.fault.unit(unit, unit === "C" ? "F" : "C") : null;
}

function bulbFault(form: AirForm, unit: TemperatureUnit, altitudeM: number): string | null {
  const dry = measured(form.dry);
  const wet = measured(form.wet);
  if (dry === null || wet === null) return null;
  if (wet > dry) return words.fault.wetAbove;
  try {
    humidityPct(celsiusOf(dry, unit), celsiusOf(wet, unit), altitudeM);
    return null;
  } catch (fault) {
    if (fault instanceof NoSuchAir) return words.fault.tooDry;
    throw fault;
  }
}

function humidityFault(text: string): string | null {
  const fault = numberFault(text, words.fault);
  const typed = measured(text);
  if (fault || typed === null) return fault;
  return typed < 0 || typed > 100 ? words.fault.humidity : null;
}
