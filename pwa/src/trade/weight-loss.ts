/**
 * Water loss of eggs in the setter: the target line, the projection, and which way to change the humidity. Mirrors
 * server/broodline/trade/weight_loss.py over tests/vectors/weight_loss.json. Loss in percent of the weight when set,
 * per egg, net of the tray.
 */
import setpoints from "@tables/setpoints.json";
import table from "@tables/weight_loss.json";
import { humidityPct } from "./air.ts";
import { type Stage, toCelsius } from "./climate.ts";
import { type Range, speciesNamed } from "./species.ts";

/** Wished loss at a day, percent of set weight, with the corridor around it and where it was read. */
export interface LossTarget {
  readonly targetPct: number;
  readonly lowPct: number;
  readonly highPct: number;
  readonly source: string;
  readonly status: string;
}

/** Loss per day by least squares through nothing at day 0, percent; errorPerDay: its standard error or null. */
export interface LossLine {
  readonly perDayPct: number;
  readonly errorPerDay: number | null;
}

/** Loss by a day, percent of set weight, with its 95 % band. */
export interface Projection {
  readonly lowPct: number;
  readonly middlePct: number;
  readonly highPct: number;
}

/** code: of its words in the table. humidityPct: what to set, null where only the way, or nothing, is advised. */
export interface Advice {
  readonly code: keyof typeof table.words;
  readonly words: string;
  readonly humidityPct: number | null;
}

/** A weighing: the day since setting, and the loss in percent. */
export type Point = readonly [day: number, lossPct: number];

/** A figure of a table; source: the key of where it was read. */
interface Figure<T> {
  readonly value: T;
  readonly source: string;
  readonly status: string;
}

interface LossRow {
  readonly target: Figure<number>;
  readonly corridor: Pick<Figure<Range>, "value">;
  readonly by_day?: Pick<Figure<number>, "value">;
}

interface HumidityRow {
  readonly setter_dry: readonly Figure<number>[];
  readonly setter_wet: readonly Figure<number | Range>[];
  readonly setter_humidity?: readonly Figure<number | Range>[];
  readonly hatcher_dry: readonly Figure<number>[];
  readonly hatcher_wet: readonly Figure<number | Range>[];
  readonly hatcher_humidity?: readonly Figure<number | Range>[];
}

// JSON knows lists, not pairs: the server's tests hold every row to this shape.
const ROWS = new Map(Object.entries(table.species as unknown as Readonly<Record<string, LossRow>>));
const OTHER = table.other as unknown as LossRow;
const HUMIDITY = new Map(
  Object.entries(setpoints.species as unknown as Readonly<Record<string, HumidityRow>>),
);
const { rules } = table;
const RANGE = rules.humidity_range.value as unknown as Range;
const Z_95 = 1.96;

/** The target of a species on a day, in proportion to the day its figure belongs to; undefined if unknown. */
export function lossTarget(species: string, day: number): LossTarget | undefined {
  const known = speciesNamed(species);
  if (known === undefined) return undefined;
  const row = ROWS.get(species) ?? OTHER;
  const part = day / (row.by_day?.value ?? known.periodDays[0]);
  const [low, high] = row.corridor.value;
  return {
    targetPct: row.target.value * part,
    lowPct: low * part,
    highPct: high * part,
    source: row.target.source,
    status: row.target.status,
  };
}

/** Loss in percent of the first mass. Throws RangeError for no mass, and for a gain. */
export function lossPct(massFirstG: number, massNowG: number): number {
  if (!(massFirstG > 0 && massNowG > 0)) throw new RangeError("an egg without weight was not weighed");
  if (massNowG > massFirstG)
    throw new RangeError("eggs do not gain weight: weigh again, or look at the tray");
  return (100 * (massFirstG - massNowG)) / massFirstG;
}

/** The mass on a day on the straight line to targetPct by byDay (all days counted from setting). */
export function targetMassG(massSetG: number, targetPct: number, day: number, byDay: number): number {
  return massSetG * (1 - ((targetPct / 100) * day) / byDay);
}

/** The line through nothing at day 0 that fits best; undefined without a point after day 0. */
export function lossLine(points: readonly Point[]): LossLine | undefined {
  const weight = sum(points.map(([day]) => day * day));
  const after = points.filter(([day]) => day > 0);
  if (after.length === 0) return undefined;
  const slope = sum(points.map(([day, loss]) => day * loss)) / weight;
  if (after.length < 2) return { perDayPct: slope, errorPerDay: null };
  const rest = sum(after.map(([day, loss]) => (loss - slope * day) ** 2));
  return { perDayPct: slope, errorPerDay: Math.sqrt(rest / (after.length - 1) / weight) };
}

/** The humidity that would turn the seen daily loss into the needed one at the same temperature, 20 to 85 %. */
export function humidityFor(humidity: number, neededPerDay: number, seenPerDay: number): number {
  if (!(seenPerDay > 0)) throw new RangeError("no loss was seen, so nothing can be said");
  return within(RANGE, 100 * (1 - ((1 - humidity / 100) * neededPerDay) / seenPerDay));
}

/** The lowest and highest humidity that any table gives for the species in that stage, percent, within 20 to 85. */
export function humidityAllowed(species: string, stage: Stage = "setter"): Range {
  const row = HUMIDITY.get(species);
  if (row === undefined) return RANGE;
  const wet = new Map(row[`${stage}_wet`].map((figure) => [figure.source, figure.value]));
  const found = row[`${stage}_dry`].flatMap((dry) =>
    ends(wet.get(dry.source) ?? []).map((one) => humidityPct(toCelsius(dry.value), toCelsius(one))),
  );
  found.push(...(row[`${stage}_humidity`] ?? []).flatMap((figure) => ends(figure.value)));
  return [Math.max(RANGE[0], Math.min(...found)), Math.min(RANGE[1], Math.max(...found))];
}

/** Where the line leads by a day, with its 95 % band; undefined without a point after day 0. */
export function project(points: readonly Point[], errorPct: number, byDay: number): Projection | undefined {
  const line = lossLine(points);
  if (line === undefined) return undefined;
  const byScale = errorPct / Math.sqrt(sum(points.map(([day]) => day * day)));
  const half = Z_95 * Math.max(line.errorPerDay ?? 0, byScale) * byDay;
  const middle = line.perDayPct * byDay;
  return { lowPct: middle - half, middlePct: middle, highPct: middle + half };
}

/** Standard error of a loss in percent from the scale's step, for n eggs of massFirstG each. */
export function scaleErrorPct(stepG: number, massFirstG: number, n: number): number {
  return (100 * stepG * Math.sqrt(2 / 12)) / (massFirstG * n);
}

/** What is known when advice is asked for. humidity: the last reading, percent, or null. */
export interface Asked {
  readonly species: string;
  readonly projection: Projection;
  readonly lastDay: number;
  readonly today: number;
  readonly lockdown: number;
  readonly humidity: number | null;
}

/** Whether another weighing can still follow: none is weighed from lockdown on. Days of incubation. */
export function canWeighAgain(today: number, lockdown: number): boolean {
  return lockdown - today >= rules.days_left.value;
}

/** What to do about the humidity, if anything; the server's words. */
export function advise({
  species,
  projection,
  lastDay,
  today,
  lockdown,
  humidity,
}: Asked): Advice | undefined {
  const target = lossTarget(species, lockdown);
  if (target === undefined || !canWeighAgain(today, lockdown)) return undefined;
  const { lowPct, middlePct, highPct } = projection;
  const figures = {
    projected: rounded(middlePct, 1),
    low: rounded(target.lowPct, 1),
    high: rounded(target.highPct, 1),
    again: String(rules.weigh_again.value),
  };
  if (lowPct <= target.highPct && highPct >= target.lowPct) {
    const isWide = highPct - lowPct > target.highPct - target.lowPct;
    return isWide ? said("wide", figures, null) : undefined;
  }
  const isLittle = middlePct < target.lowPct;
  const way = isLittle ? "little" : "much";
  const seen = middlePct / lockdown;
  if (humidity === null || humidity <= 0 || humidity >= 100 || seen <= 0 || lockdown <= lastDay)
    return said(way, { ...figures, step: "" }, null);
  const needed = Math.max(0, target.targetPct - seen * lastDay) / (lockdown - lastDay);
  const allowed = humidityAllowed(species);
  const aim = within(allowed, humidityFor(humidity, needed, seen));
  const step = within([-rules.step_points.value, rules.step_points.value], aim - humidity);
  const from = rounded(humidity, 0);
  if (isLittle ? step < 0 : step > 0) {
    const to = rounded(humidity + step, 0);
    return said(way, { ...figures, step: filled(table.words.step, { from, to }) }, humidity + step);
  }
  const limit = rounded(isLittle ? allowed[0] : allowed[1], 0);
  return said(isLittle ? "no_lower" : "no_higher", { ...figures, from, limit }, null);
}

function said(
  code: Advice["code"],
  figures: Readonly<Record<string, string>>,
  humidityPct: number | null,
): Advice {
  return { code, words: filled(table.words[code], figures), humidityPct };
}

function filled(words: string, figures: Readonly<Record<string, string>>): string {
  return Object.entries(figures).reduce(
    (text, [name, figure]) => text.replaceAll(`{${name}}`, () => figure),
    words,
  );
}

/** Half up, so that both languages write the same. */
function rounded(figure: number, digits: number): string {
  return (Math.floor(figure * 10 ** digits + 0.5) / 10 ** digits).toFixed(digits);
}

function ends(value: number | readonly number[]): readonly number[] {
  return typeof value === "number" ? [value] : value;
}

function within([low, high]: Range, value: number): number {
  return Math.max(low, Math.min(high, value));
}

/** All of them added up. */
export function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
