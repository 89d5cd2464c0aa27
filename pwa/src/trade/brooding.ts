/**
 * How warm a brooder is at the height of the chicks' backs, by species and age. Mirrors server/broodline/trade/brooding.py
 * over tests/vectors/brooding.json. A species whose figures were read nowhere gives undefined.
 */
import table from "@tables/brooding.json";
import { type Ends, endsOf, type Figure, type Published } from "./ranges.ts";

interface HeatRow {
  readonly published?: readonly Published[];
  readonly start?: Published;
  readonly step?: Figure;
  readonly floor?: Figure;
  readonly weeks?: Figure;
  readonly hold_weeks?: Figure;
  readonly bands?: readonly { readonly from_day: number; readonly heat: Published }[];
  readonly bands_until?: Figure;
  readonly off?: Figure;
}

/**
 * The band for an age, °F as published; null where heat is needed but no figure was read: the chicks alone say how
 * much. nextDay: the age of the next step; offDays: between which heat ends, it is asked for until the later.
 */
export interface Heat {
  readonly bandF: Ends | null;
  readonly nextDay: number | null;
  readonly offDays: Ends | null;
}

/** What chicks look like, and what that says. */
export type Look = keyof typeof table.looks;

const WEEK = 7;
const HEAT = new Map(Object.entries(table.heat as unknown as Readonly<Record<string, HeatRow>>));

/** Where the heat is meant. */
export const WHERE = table.where;
export const CAUTIONS: readonly string[] = table.cautions.map(({ value }) => value);

/** The heat for chicks of that age; undefined for an unread species, or where no more is asked. */
export function heatAt(species: string, ageDays: number): Heat | undefined {
  const row = HEAT.get(species);
  if (row === undefined || ageDays < 0) return undefined;
  return row.bands === undefined ? bySteps(row, ageDays) : byBands(row, ageDays);
}

/** Every change after the first day: the age, and the heat from then on (undefined where heat ends). */
export function heatSteps(species: string): [day: number, heat: Heat | undefined][] {
  const steps: [number, Heat | undefined][] = [];
  for (let heat = heatAt(species, 0); heat !== undefined && heat.nextDay !== null; ) {
    const day = heat.nextDay;
    heat = heatAt(species, day);
    steps.push([day, heat]);
  }
  return steps;
}

/** What was published of a species' heat: the figure the band begins with first, then all that stand beside it. */
export function heatPublished(species: string): readonly Published[] {
  const row = HEAT.get(species);
  if (row === undefined) return [];
  const first = row.start ?? row.bands?.[0]?.heat;
  return [...(first === undefined ? [] : [first]), ...(row.published ?? [])];
}

/** A band of heat in whole degrees of the keeper's scale. */
export function heatWords(bandF: Ends, scale: "C" | "F"): string {
  const [low, high] = bandF.map((end) => Math.floor((scale === "F" ? end : (end - 32) / 1.8) + 0.5));
  return low === high ? `${low} °${scale}` : `${low} to ${high} °${scale}`;
}

/** Where the figure of chicks under a lamp was read. */
export const LAMP_SOURCE = table.lamp.chicks.source;

/** Chicks that lamps of 250 W keep warm in a room of that temperature, °F; no more above 50 °F, of which none was read. */
export function chicksUnderLamp(roomF: number, lamps = 1): number {
  const { chicks, at, less } = table.lamp;
  return lamps * Math.max(0, Math.trunc(chicks.value - less.value * Math.max(0, at.value - roomF)));
}

/** Where it was read what the chicks' spread says: of these species alone. */
export const LOOKS_SOURCE = table.looks.spread.source;
export const isLooksReadOf = (species: string): boolean => table.looks_read_of.includes(species);

/** What it says when chicks lie so. */
export function lookWords(look: Look): string {
  return table.looks[look].value;
}

/** A row that says neither how low nor how long has no step to come: it would never end. */
function bySteps(row: HeatRow, ageDays: number): Heat | undefined {
  const week = Math.floor(ageDays / WEEK);
  const offDays = row.weeks === undefined ? null : inDays(endsOf(row.weeks));
  const held = row.hold_weeks === undefined ? 1 : endsOf(row.hold_weeks)[0];
  const steps = Math.max(0, week + 1 - held);
  const [low, high] = endsOf(row.start);
  const [small, large] = endsOf(row.step);
  const floor = row.floor === undefined ? Number.NEGATIVE_INFINITY : endsOf(row.floor)[0];
  const isEndless = row.floor === undefined && row.weeks === undefined;
  const isOver = steps > 0 && high - small * (steps - 1) <= floor;
  if (isOver || (offDays !== null && ageDays >= offDays[1])) return undefined;
  return {
    bandF: [Math.max(floor, low - large * steps), Math.max(floor, high - small * steps)],
    nextDay: isEndless ? null : Math.max(week + 1, held) * WEEK,
    offDays,
  };
}

const inDays = ([low, high]: Ends): Ends => [low * WEEK, high * WEEK];

function byBands({ bands = [], bands_until, off }: HeatRow, ageDays: number): Heat | undefined {
  const until = bands_until === undefined ? null : endsOf(bands_until)[0];
  const offDays = off === undefined ? null : endsOf(off);
  if (offDays !== null && ageDays >= offDays[1]) return undefined;
  if (until !== null && ageDays >= until) {
    const weekEnd = (Math.floor(ageDays / WEEK) + 1) * WEEK;
    return { bandF: null, nextDay: offDays && Math.min(weekEnd, offDays[1]), offDays };
  }
  const number = bands.filter(({ from_day }) => from_day <= ageDays).length - 1;
  const band = bands[number];
  if (band === undefined) return undefined;
  const nextDay = bands[number + 1]?.from_day ?? until;
  return { bandF: endsOf(band.heat), nextDay, offDays };
}
