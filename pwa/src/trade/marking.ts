/** What was read of marking: where the law stands, how it is done, how long marks last; the colours rings come in. */
import table from "@tables/marks.json";
import { sourceTitle } from "./sources.ts";

/** In the order they are offered. */
export const RING_COLOURS: readonly string[] = table.ring_colours.value;

/** Titles of the laws that were read. */
export const LAWS: readonly string[] = Object.values(table.law).map(
  ({ source }) => sourceTitle(source) ?? source,
);

/** How marking is done, a sentence each. */
export const PRACTICE: readonly string[] = table.practice.map(({ value }) => value);

/** Of a hundred filled rings on day-old wood ducks, how many stayed on: lowest and highest of two places. */
export const FILLED_RINGS_KEPT: readonly number[] = table.holding.ring_filled.value;

const MM_IN_INCH = 25.4;
const SIXTEENTHS = 16;

/** The inside of a numbered ring, millimetres: sixteenths of an inch by two suppliers' charts. Mirrors trade/bands.py. */
export const bandMm = (size: number): number => (size * MM_IN_INCH) / SIXTEENTHS;
